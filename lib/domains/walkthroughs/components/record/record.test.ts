import "fake-indexeddb/auto";
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { besideClip } from "@/lib/domains/clips/components/beside/beside-clip.fixture";
import { besideReducer, startBeside, type BesideAction } from "@/lib/domains/clips/components/beside/beside-state";
import { lineUp } from "@/lib/domains/clips/components/beside/lined-clip";
import type { ClipBeside } from "@/lib/domains/clips/view";
import { stateAt } from "../../list/rules";
import { listForm, type Happening } from "../../list/schema";
import { handAt, handUp, takeTool, writeWords } from "./draw-by-hand";
import { dropFromDevice, keepOnDevice, keepPiece, listKeptTakes, readKeptVoice } from "./kept-takes";
import { msOf, runClock, stopClock, stoppedClock } from "./take-clock";
import { VoiceRecorder } from "./voice-recorder";
import { listOf, startOf, whatHappened, withHappening } from "./what-happened";

const contact = (tick: number) => [{ event: "contact" as const, tick, frameIndex: null, source: "coach" as const, sdSeconds: null }];
const beside = (id: string, frames: number, apart: number): ClipBeside => ({
  clip: besideClip({ id, ticks: Array.from({ length: frames }, (_, i) => i * apart), events: contact(90_000) }), isShown: true, startsFlipped: false, caption: id, unlike: [], notNoted: [],
});
const [one, two] = ["11111111-1111-4111-8111-111111111111", "22222222-2222-4222-8222-222222222222"] as const;
const clips = [beside(one, 480, 375), beside(two, 120, 1500)];
const lined = lineUp(clips.map(({ clip }) => clip), false);
const begun = startBeside({ clips: lined });

/** What is kept while somebody does these things, one a tenth of a second. */
function recorded(actions: readonly BesideAction[]) {
  let state = begun;
  let happenings: readonly Happening[] = [];
  const states = actions.map((action, i) => {
    const after = besideReducer(lined)(state, action);
    for (const it of whatHappened(clips, state, after, (i + 1) * 100)) happenings = withHappening(happenings, it);
    state = after;
    return after;
  });
  return { states, list: listOf(clips, lined, startOf(clips, begun), happenings, (actions.length + 1) * 100) };
}

describe("what is kept of a talk", () => {
  const action: fc.Arbitrary<BesideAction> = fc.oneof(
    fc.integer({ min: -20, max: 20 }).map((by) => ({ kind: "step", by }) as const),
    fc.constantFrom(one, two).map((clipId) => ({ kind: "take-in-hand", clipId }) as const),
    fc.boolean().map((isLocked) => ({ kind: "lock", isLocked }) as const),
    fc.constantFrom(one, two).map((clipId) => ({ kind: "flip", clipId }) as const),
    fc.double({ min: -0.9, max: 0.9, noNaN: true }).map((seconds) => ({ kind: "show-at", seconds }) as const),
    fc.boolean().map((isLaidOver) => ({ kind: "lay-over", isLaidOver }) as const),
    fc.boolean().map((hasPoints) => ({ kind: "points", hasPoints }) as const),
    fc.tuple(fc.constantFrom(one, two), fc.double({ min: 1, max: 8, noNaN: true }), fc.integer({ min: 0, max: 1280 })).map(([clipId, zoom, x]) => ({ kind: "look", clipId, look: { zoom, centre: { x, y: 300 } } }) as const),
  );

  test("shows again what stood on the page after each thing that was done, and is a list that can be kept", () => {
    fc.assert(
      fc.property(fc.array(action, { minLength: 1, maxLength: 25 }), (actions) => {
        const { states, list } = recorded(actions);
        expect(listForm.safeParse(list).success).toBe(true);
        const times = clips.map(({ clip }) => clip.frameTimes);
        states.forEach((state, i) => {
          const { frames, flips, inHand, isLocked, hasPoints, over, looks } = startOf(clips, state);
          expect(stateAt(list, times, (i + 1) * 100 + 50)).toMatchObject({ frames, flips, inHand, isLocked, hasPoints, over, looks });
        });
      }),
    );
  });

  test("holds no frame of what runs by itself, and the frame at which it was held", () => {
    const { list } = recorded([{ kind: "play", isPlaying: true }, { kind: "show-at", seconds: 0.1 }, { kind: "show-at", seconds: 0.2 }, { kind: "play", isPlaying: false }]);
    expect(list.happenings).toEqual([{ at: 400, kind: "show", frames: [288, 72] }]);
  });

  test("a drawing stands at the time at which it was begun, and looks that follow each other closely are one", () => {
    const mark: Happening = { at: 150, kind: "mark", id: "m1", clip: 0, frame: 1, shape: { v: 1, kind: "ring", cx: 1, cy: 1, rx: 1, ry: 1 }, overMs: 100 };
    const look = (at: number, zoom: number): Happening => ({ at, kind: "look", clip: 0, look: { zoom, x: 1, y: 1 } });
    const all = [look(100, 1), look(120, 2), look(200, 3), mark].reduce<readonly Happening[]>(withHappening, []);
    expect(all).toEqual([look(100, 2), mark, look(200, 3)]);
  });
});

test("the clock of a take stands still in a pause and never runs back, whatever the time of day does", () => {
  let clock = runClock(stoppedClock, 1000);
  expect(msOf(clock, 3500)).toBe(2500);
  clock = stopClock(clock, 4000);
  expect([msOf(clock, 4000), msOf(clock, 99_000)]).toEqual([3000, 3000]);
  clock = runClock(clock, 10_000);
  expect(msOf(clock, 10_500)).toBe(3500);
  expect(msOf(clock, 9000)).toBe(3000);
});

describe("drawing by hand", () => {
  const picture = { width: 1280, height: 720 };

  test("a pen keeps when the hand was where, and a slip is no drawing", () => {
    let hand = takeTool("pen", one, picture);
    for (let i = 0; i <= 20; i++) hand = handAt(hand, one, { x: 100 + i * 10, y: 100 + (i % 2) * 40 }, picture, 1000 + i * 50);
    const { done, next } = handUp(hand, 2100);
    expect(done).toMatchObject({ clipId: one, begunMs: 1000, overMs: 1100, shape: { kind: "pen" } });
    const pace = done?.paceMs ?? [];
    expect(done?.shape.kind === "pen" ? done.shape.places.length : 0).toBe(pace.length);
    expect([pace[0], pace.at(-1)]).toEqual([0, 1000]);
    expect([...pace].sort((a, b) => a - b)).toEqual(pace);
    expect(next.drawing).toBeNull();
    expect(handUp(handAt(takeTool("line", one, picture), one, { x: 5, y: 5 }, picture, 0), 10).done).toBeNull();
  });

  test("words stand where the hand let go, from when they were written, and more can be set", () => {
    const placed = handUp(handAt(takeTool("words", one, picture), one, { x: 40.04, y: 50 }, picture, 1000), 1100);
    expect(placed).toMatchObject({ done: null, next: { wordsAt: { x: 40.04, y: 50 } } });
    const written = writeWords(placed.next, "Stay on the back leg", 4000.4);
    expect(written.done).toEqual({ clipId: one, shape: { v: 1, kind: "words", x: 40, y: 50, text: "Stay on the back leg" }, begunMs: 4000, overMs: 0, paceMs: null });
    expect(writeWords(written.next, "again", 5000).done).toBeNull();
  });

  test("an angle takes two strokes", () => {
    let hand = handAt(handAt(takeTool("angle", one, picture), one, { x: 0, y: 0 }, picture, 0), one, { x: 100, y: 0 }, picture, 100);
    const first = handUp(hand, 200);
    expect(first.done).toBeNull();
    hand = handAt(first.next, one, { x: 100, y: 100 }, picture, 400);
    expect(handUp(hand, 500).done).toMatchObject({ overMs: 500, shape: { v: 1, kind: "angle", x1: 0, y1: 0, x2: 100, y2: 0, x3: 100, y3: 100 } });
  });
});

test("what lies on the device is offered until it was sent, its voice whole and in order", async () => {
  const { list } = recorded([{ kind: "step", by: 1 }]);
  const take = { takeId: "take", userId: "ottoline", playerId: "pia", walkthroughId: "w", side: "right" as const, chapterId: null, hasVoice: true, list };
  await keepOnDevice({ ...take, list: { ...list, durationMs: 1 } });
  for (const number of [0, 1, 2, 10]) await keepPiece("take", number, new Blob([String(number)], { type: "audio/webm" }));
  await keepPiece("taken", 0, new Blob(["other"]));
  await keepOnDevice(take);
  expect(await listKeptTakes("ottoline", "pia")).toEqual([take]);
  expect(await listKeptTakes("ottoline", "otto")).toEqual([]);
  expect(await listKeptTakes("somebody else", "pia")).toEqual([]);
  const voice = await readKeptVoice("take");
  expect([await voice?.text(), voice?.type]).toEqual(["01210", "audio/webm"]);
  await dropFromDevice("take");
  expect([await listKeptTakes("ottoline", "pia"), await readKeptVoice("take")]).toEqual([[], null]);
  expect(await (await readKeptVoice("taken"))?.text()).toBe("other");
});

test("a take begins when its recorder is told to run and not when the recorder says so, for its sound begins there", async () => {
  let steadyMs = 5000;
  vi.spyOn(performance, "now").mockImplementation(() => steadyMs);
  class LateRecorder extends EventTarget {
    static isTypeSupported = () => true;
    start() {
      // It says that it runs a while after it has begun to keep what it hears.
      steadyMs += 170;
      queueMicrotask(() => this.dispatchEvent(new Event("start")));
    }
  }
  vi.stubGlobal("MediaRecorder", LateRecorder);
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia: async () => ({ getAudioTracks: () => [new EventTarget()] }) } });
  const recorder = await VoiceRecorder.open(() => undefined);
  expect(typeof recorder === "string" ? recorder : await recorder.start(() => undefined)).toBe(5000);
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});
