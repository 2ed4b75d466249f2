import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { takeList, twoTimes } from "./list.fixture";
import { chaptersOf, followList, growingShape, stateAt } from "./rules";
import { listForm, readList, type Happening, type TakeList } from "./schema";

const kept = (name: string): unknown => JSON.parse(readFileSync(`tests/golden/walkthroughs/${name}`, "utf8"));
const play: Happening = { at: 1000, kind: "play", rate: 0.5, fromSeconds: -0.5, toSeconds: 0.25, clips: [0, 1] };

describe("what stands on the screen", () => {
  test("clips of different rates run by seconds, each on the frame of its own that is nearest", () => {
    const list = takeList({ happenings: [play] });
    expect(stateAt(list, twoTimes, 999).frames).toEqual([240, 60]);
    expect(stateAt(list, twoTimes, 1000).frames).toEqual([120, 30]);
    // One second of talk at half of real time is half a second of the swing: contact.
    expect(stateAt(list, twoTimes, 2000)).toMatchObject({ frames: [240, 60], isPlaying: true });
    expect(stateAt(list, twoTimes, 30_000)).toMatchObject({ frames: [300, 75], isPlaying: false });
  });

  test("the shown seconds never lie further from the law than half of a frame", () => {
    const list = takeList({ happenings: [play] });
    fc.assert(
      fc.property(fc.integer({ min: 1000, max: 2500 }), (ms) => {
        const seconds = -0.5 + ((ms - 1000) / 1000) * 0.5;
        const [fast = 0, slow = 0] = stateAt(list, twoTimes, ms).frames;
        expect(Math.abs(fast / 240 - 1 - seconds)).toBeLessThanOrEqual(1 / 480 + 1e-9);
        expect(Math.abs(slow / 60 - 1 - seconds)).toBeLessThanOrEqual(1 / 120 + 1e-9);
      }),
    );
  });

  test("a clip that does not run along keeps its frame, and so does one whose film is gone", () => {
    const list = takeList({ happenings: [{ ...play, clips: [1] }] });
    expect(stateAt(list, twoTimes, 2500).frames).toEqual([240, 75]);
    expect(stateAt(takeList({ happenings: [play] }), [null, twoTimes[1] ?? null], 2500).frames).toEqual([240, 75]);
  });

  test("playing anew at another rate goes on from its own instant", () => {
    const list = takeList({ happenings: [play, { ...play, at: 1500, rate: 0.25, fromSeconds: -0.25 }] });
    expect(stateAt(list, twoTimes, 1500).frames).toEqual([180, 45]);
    expect(stateAt(list, twoTimes, 2500).frames).toEqual([240, 60]);
  });

  test("a drawing appears as it was drawn and goes when it was taken away", () => {
    const shape = { v: 1, kind: "pen", places: [[0, 0], [10, 0], [20, 0], [30, 0]] } as const;
    const list = takeList({
      happenings: [{ at: 1000, kind: "mark", id: "a", clip: 0, frame: 240, shape: { ...shape, places: shape.places.map(([x, y]) => [x, y]) }, overMs: 900, paceMs: [0, 100, 800, 900] }, { at: 5000, kind: "unmark", id: "a" }],
    });
    const places = (ms: number) => stateAt(list, twoTimes, ms).marks.flatMap((it) => (it.shape.kind === "pen" ? [it.shape.places.length] : []));
    expect([places(999), places(1100), places(1799), places(1800), places(1900), places(4999), places(5000)]).toEqual([[], [2], [2], [3], [4], [4], []]);
  });

  test("lines, rings and angles grow from where they began and end as they were drawn", () => {
    const angle = { v: 1, kind: "angle", x1: 0, y1: 0, x2: 100, y2: 0, x3: 100, y3: 100 } as const;
    expect(growingShape(angle, 250, 1000)).toMatchObject({ kind: "line", x2: 50 });
    expect(growingShape(angle, 750, 1000)).toMatchObject({ kind: "angle", x3: 100, y3: 50 });
    expect(growingShape(angle, 1000, 1000)).toEqual(angle);
    expect(growingShape({ v: 1, kind: "ring", cx: 5, cy: 5, rx: 10, ry: 4 }, 500, 1000)).toMatchObject({ rx: 5, ry: 2 });
  });

  test("following from one instant to another, forward and back, says what asking afresh says", () => {
    const list = readList(kept("take-v1.json")) as TakeList;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 13_000 }), { maxLength: 30 }), (instants) => {
        const follow = followList(list, twoTimes);
        for (const ms of instants) expect(follow(ms)).toEqual(stateAt(list, twoTimes, ms));
      }),
    );
  });
});

describe("the stored form", () => {
  test("a take kept in version 1 is read and replays as it was", () => {
    const list = readList(kept("take-v1.json"));
    expect(list).not.toBeNull();
    if (!list) return;
    expect(stateAt(list, twoTimes, 0)).toMatchObject({ frames: [240, 60], flips: [false, true], marks: [{ id: "before-0-0", frame: 200 }], called: null });
    expect(stateAt(list, twoTimes, 2400)).toMatchObject({ frames: [200, 50], called: { id: "chest-open-at-plant" }, marks: [{}, { id: "m1", shape: { rx: 40, ry: 20 } }] });
    expect(stateAt(list, twoTimes, 5000)).toMatchObject({ frames: [260, 65], isPlaying: true });
    expect(stateAt(list, twoTimes, 12_000)).toMatchObject({ frames: [320, 80], flips: [false, false], over: { opacity: 0.5 }, looks: [{ zoom: 1 }, { zoom: 2 }], called: { id: "plant" }, marks: [{ id: "before-0-0" }] });
  });

  test("a version that is not known, and what is no list, are not read", () => {
    const list = takeList();
    expect(readList(list)).toEqual(list);
    for (const forged of [{ ...list, v: 2 }, { ...list, v: 0 }, { ...list, v: "1" }, null, 7, [], "x", { v: 1 }]) expect(readList(forged)).toBeNull();
  });

  const forged: readonly (readonly [string, (list: TakeList) => unknown])[] = [
    ["a time after the end", (it) => ({ ...it, happenings: [{ ...play, at: 40_001 }] })],
    ["a negative time", (it) => ({ ...it, happenings: [{ ...play, at: -1 }] })],
    ["a time that is no whole number", (it) => ({ ...it, happenings: [{ ...play, at: 0.5 }] })],
    ["times out of order", (it) => ({ ...it, happenings: [{ ...play, at: 5000 }, { ...play, at: 4000 }] })],
    ["a take of days", (it) => ({ ...it, durationMs: 90_000_000 })],
    ["a frame that is not there", (it) => ({ ...it, happenings: [{ at: 1, kind: "show", frames: [480, 0] }] })],
    ["too few frames", (it) => ({ ...it, happenings: [{ at: 1, kind: "show", frames: [1] }] })],
    ["a clip that is not there", (it) => ({ ...it, happenings: [{ at: 1, kind: "hand", clip: 2 }] })],
    ["a clip named twice", (it) => ({ ...it, clips: [it.clips[0], { ...it.clips[0] }] })],
    ["a clip's name that is an address", (it) => ({ ...it, clips: [{ ...it.clips[0], clipId: "../../secret" }, it.clips[1]] })],
    ["something that happened and is not known", (it) => ({ ...it, happenings: [{ at: 1, kind: "script", src: "https://x.test" }] })],
    ["a field too many", (it) => ({ ...it, happenings: [{ at: 1, kind: "hand", clip: 0, onclick: "alert(1)" }] })],
    ["a number that is none", (it) => ({ ...it, happenings: [{ ...play, fromSeconds: NaN }] })],
    ["a rate faster than real", (it) => ({ ...it, happenings: [{ ...play, rate: 100 }] })],
    ["a drawing drawn twice", (it) => ({ ...it, happenings: [1, 2].map((at) => ({ at, kind: "mark", id: "a", clip: 0, frame: 1, shape: { v: 1, kind: "ring", cx: 1, cy: 1, rx: 1, ry: 1 }, overMs: 1 })) })],
    ["a drawing taken away that was never there", (it) => ({ ...it, happenings: [{ at: 1, kind: "unmark", id: "a" }] })],
    ["a name of the library that is a script", (it) => ({ ...it, happenings: [{ at: 1, kind: "call", called: { kind: "fault", id: "<script>", name: "x" } }] })],
    ["more than can be kept", (it) => ({ ...it, happenings: Array.from({ length: 12_001 }, () => ({ at: 1, kind: "hand", clip: 0 })) })],
  ];
  test.each(forged)("a forged list is refused: %s", (_what, forge) => {
    expect(listForm.safeParse(takeList()).success).toBe(true);
    expect(listForm.safeParse(forge(takeList())).success).toBe(false);
  });
});

describe("chapters", () => {
  const call = (at: number, id: string | null, kind: "fault" | "event" = "fault"): Happening =>
    ({ at, kind: "call", called: id === null ? null : kind === "event" ? { kind, id: "plant", name: "Plant" } : { kind, id, name: `The ${id}` } });

  test("each thing that was pointed at begins one; together they cover the take", () => {
    const chapters = chaptersOf(takeList({ happenings: [call(5000, "drift"), call(8000, null, "fault"), call(9000, "plant", "event"), call(20_000, "drag")] }));
    expect(chapters.map(({ fromMs, toMs, title }) => [fromMs, toMs, title])).toEqual([[0, 5000, "Opening"], [5000, 20_000, "The drift"], [20_000, 40_000, "The drag"]]);
  });

  test("a slip of the finger begins none, and the same thing twice is one", () => {
    const chapters = chaptersOf(takeList({ happenings: [call(400, "drift"), call(10_000, "drag"), call(10_900, "cast"), call(30_000, "cast")] }));
    expect(chapters.map(({ fromMs, toMs, title }) => [fromMs, toMs, title])).toEqual([[0, 10_900, "The drift"], [10_900, 40_000, "The cast"]]);
  });

  test("without anything pointed at the take is one chapter", () => {
    expect(chaptersOf(takeList())).toMatchObject([{ fromMs: 0, toMs: 40_000, title: "Opening", about: null }]);
  });
});
