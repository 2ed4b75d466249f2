import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EventView } from "../../view";
import { besideClip } from "./beside-clip.fixture";
import { besideKey } from "./beside-keys";
import { besideReducer, clockOf, playReach, startBeside, type BesideAction, type BesideState } from "./beside-state";
import { lineUp, ownSeconds, type LinedClip } from "./lined-clip";

const even = (fps: number, count: number) => Array.from({ length: count }, (_, i) => Math.round((i * 90_000) / fps));
const contact = (frameIndex: number, ticks: readonly number[]): EventView => ({ event: "contact", frameIndex, tick: ticks[frameIndex] ?? 0, source: "coach", sdSeconds: null });
const clip = (id: string, fps: number, count: number, at: number | null, more = {}) => {
  const ticks = even(fps, count);
  return besideClip({ id, ticks, events: at === null ? [] : [contact(at, ticks)], ...more });
};
const three = lineUp([clip("a", 240, 400, 200), clip("b", 60, 120, 50), clip("c", 240, 300, null)], false);
const run = (clips: readonly LinedClip[], actions: readonly BesideAction[], from: BesideState = startBeside({ clips })) => actions.reduce(besideReducer(clips), from);
const frames = (state: BesideState) => Object.fromEntries(Object.entries(state.places).map(([id, it]) => [id, it.frameIndex]));

describe("the clips of the side-by-side view", () => {
  test("they open at contact, locked, none flipped, times as they are", () => {
    const state = startBeside({ clips: three });
    expect(frames(state)).toEqual({ a: 200, b: 50, c: 0 });
    expect(state).toMatchObject({ isLocked: true, isStretched: false, isLaidOver: false });
  });
  test("the clip in hand steps by its own frames and the others follow in seconds", () => {
    const fast = run(three, [{ kind: "step", by: 1 }, { kind: "step", by: 1 }, { kind: "step", by: 1 }]);
    expect(frames(fast)).toEqual({ a: 203, b: 51, c: 0 });
    const slow = run(three, [{ kind: "take-in-hand", clipId: "b" }, { kind: "step", by: -1 }]);
    expect(frames(slow)).toEqual({ a: 196, b: 49, c: 0 });
  });
  test("unlocked, only the clip in hand moves; locked again, the others come to its instant", () => {
    const apart = run(three, [{ kind: "lock", isLocked: false }, { kind: "step", by: 40 }]);
    expect(frames(apart)).toEqual({ a: 240, b: 50, c: 0 });
    expect(frames(run(three, [{ kind: "lock", isLocked: true }], apart))).toEqual({ a: 240, b: 60, c: 0 });
  });
  test("a clip without contact is stepped by itself and moves nobody", () => {
    expect(frames(run(three, [{ kind: "take-in-hand", clipId: "c" }, { kind: "step", by: 7 }]))).toEqual({ a: 200, b: 50, c: 7 });
    expect(frames(run(three, [{ kind: "show-at", seconds: -0.2 }]))).toEqual({ a: 152, b: 38, c: 0 });
  });
  test("whatever is done, locked clips stand within half a frame of one another or at an end of their film", () => {
    const action = fc.oneof(
      fc.record({ kind: fc.constant("step" as const), by: fc.integer({ min: -30, max: 30 }) }),
      fc.record({ kind: fc.constant("take-in-hand" as const), clipId: fc.constantFrom("a", "b", "c") }),
      fc.record({ kind: fc.constant("show-at" as const), seconds: fc.double({ min: -2, max: 2, noNaN: true }) }),
      fc.record({ kind: fc.constant("go-end" as const), end: fc.constantFrom("first" as const, "last" as const) }),
      fc.record({ kind: fc.constant("flip" as const), clipId: fc.constantFrom("a", "b", "c") }),
      fc.record({ kind: fc.constant("lock" as const), isLocked: fc.boolean() }),
    );
    fc.assert(
      fc.property(fc.array(action, { maxLength: 25 }), (actions) => {
        const state = run(three, [...actions, { kind: "lock", isLocked: true }]);
        const [a, b] = three;
        const [fa, fb] = [state.places.a?.frameIndex ?? 0, state.places.b?.frameIndex ?? 0];
        if (!a || !b) return;
        const isAtEnd = fa === 0 || fb === 0 || fa === a.frameCount - 1 || fb === b.frameCount - 1;
        if (!isAtEnd) expect(Math.abs(ownSeconds(a, fa) - ownSeconds(b, fb))).toBeLessThanOrEqual(1 / 120 + 1e-9);
      }),
    );
  });
  test("N14: to flip changes how one clip lies on the screen and nothing that is recorded of it, nor any other clip", () => {
    const before = startBeside({ clips: three });
    const after = run(three, [{ kind: "flip", clipId: "b" }]);
    expect(after.places).toEqual({ ...before.places, b: { ...before.places.b, isFlipped: true } });
    expect(run(three, [{ kind: "flip", clipId: "b" }], after)).toEqual(before);
  });
  test("a clip that joins comes in at the instant of the others; one that goes leaves them where they were", () => {
    const two = three.slice(0, 2);
    const state = run(two, [{ kind: "step", by: -48 }]);
    const four = lineUp([clip("a", 240, 400, 200), clip("b", 60, 120, 50), clip("d", 120, 200, 90)], false);
    expect(frames(run(four, [{ kind: "clips", flipped: [] }], state))).toEqual({ a: 152, b: 38, d: 66 });
    expect(frames(run(four.slice(1), [{ kind: "clips", flipped: [] }], run(four, [{ kind: "clips", flipped: [] }], state)))).toEqual({ b: 38, d: 66 });
  });
  test("a clip that begins flipped does so also when it joins later, and a flip by hand is never taken back by others that come", () => {
    const begun = startBeside({ clips: three, flipped: ["b"], seconds: -0.2 });
    expect(frames(begun)).toEqual({ a: 152, b: 38, c: 0 });
    expect(three.map(({ id }) => begun.places[id]?.isFlipped)).toEqual([false, true, false]);
    const unflipped = run(three, [{ kind: "flip", clipId: "b" }], begun);
    const joined = run(lineUp([clip("a", 240, 400, 200), clip("b", 60, 120, 50), clip("d", 120, 200, 90)], false), [{ kind: "clips", flipped: ["b", "d"] }], unflipped);
    expect(["a", "b", "d"].map((id) => joined.places[id]?.isFlipped)).toEqual([false, false, true]);
  });
  test("Escape is the view's own only while there is something to leave", () => {
    const press = { key: "Escape", shiftKey: false, ctrlKey: false, metaKey: false, altKey: false };
    const still = startBeside({ clips: three });
    expect(besideKey(press, still, ["a"])).toBeNull();
    for (const busy of [{ kind: "play", isPlaying: true }, { kind: "anchor", anchor: "tapped" }] as const) expect(besideKey(press, run(three, [busy]), ["a"])).toEqual({ kind: "cancel" });
  });
  test("an event is gone to as the clip in hand has it; without it there, as another has it", () => {
    const ticks = even(240, 400);
    const toe: EventView = { event: "toe", frameIndex: 152, tick: ticks[152] ?? 0, source: "coach", sdSeconds: null };
    const clips = lineUp([clip("a", 240, 400, 200, { events: [contact(200, ticks), toe] }), clip("b", 60, 120, 50)], false);
    for (const inHand of ["a", "b"]) expect(frames(run(clips, [{ kind: "take-in-hand", clipId: inHand }, { kind: "go-event", event: "toe" }]))).toEqual({ a: 152, b: 38 });
    const stays = run(clips, [{ kind: "go-event", event: "finish" }]);
    expect(clockOf(clips, stays)).toBe(0);
  });
  test("what is played runs from where the first film begins to where the last one ends; a clip by itself runs alone", () => {
    expect(playReach(three, startBeside({ clips: three }))?.[0]).toBeCloseTo(-50 / 60, 9);
    expect(playReach(three, { ...startBeside({ clips: three }), inHand: "c" })?.[0]).toBe(0);
  });
});

describe("tapping where the clips lie on one another", () => {
  const two = three.slice(0, 2);
  test("a place is asked for in one clip after another, and counts once all have one", () => {
    const first = run(two, [{ kind: "anchor", anchor: "tapped" }, { kind: "tap-move", to: { x: 300, y: 500 } }, { kind: "tap-place" }]);
    expect(first).toMatchObject({ anchor: "hips", taps: {}, tapping: { clipId: "b" } });
    const done = run(two, [{ kind: "tap-move", to: { x: 9999, y: 400 } }, { kind: "tap-place" }], first);
    expect(done).toMatchObject({ anchor: "tapped", taps: { a: { x: 300, y: 500 }, b: { x: 1280, y: 400 } }, tapping: null });
  });
  test("cancelled halfway nothing has changed", () => {
    const before = run(two, [{ kind: "anchor", anchor: "back-foot" }]);
    expect(run(two, [{ kind: "anchor", anchor: "tapped" }, { kind: "tap-move", to: { x: 3, y: 3 } }, { kind: "tap-place" }, { kind: "cancel" }], before)).toEqual(before);
  });
});
