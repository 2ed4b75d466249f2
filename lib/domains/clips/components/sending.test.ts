import { describe, expect, test } from "vitest";
import type { MarkView } from "../view";
import { invertChange, type Change } from "./kept";
import { notKept, Overtaken, send, type Keeping } from "./sending";
import { ToldProblem } from "./told-problem";

const ring: MarkView = { id: "drawn-1", frameIndex: 5, shape: { v: 1, kind: "ring", cx: 9, cy: 9, rx: 4, ry: 4 } };
const moved: MarkView = { ...ring, shape: { v: 1, kind: "ring", cx: 19, cy: 9, rx: 4, ry: 4 } };

function keeper() {
  const told: string[] = [];
  let marks = 0;
  const tell = (what: string) => async (...args: readonly unknown[]) => void told.push(`${what} ${JSON.stringify(args)}`);
  const keeping: Keeping = {
    onSetEvent: tell("set"), onClearEvent: tell("clear"), onPlacePoint: tell("place"), onPointUnseen: tell("unseen"), onRemovePoint: tell("remove"),
    onSwapPoints: tell("swap"), onPlacePoints: tell("place several"), onPlaceFollowed: tell("take followed"),
    onAddMark: async () => {
      marks += 1;
      told.push(`add m${marks}`);
      return `m${marks}`;
    },
    onRemoveMark: async (id) => void told.push(`unmark ${id}`),
    onOvertaken: () => void told.push("overtaken"),
  };
  return { told, keeping };
}

describe("sending changes", () => {
  test("a mark that is moved is kept anew before the old one goes, and removed later under its last name", async () => {
    const { told, keeping } = keeper();
    const ids = new Map<string, string>();
    const changes: readonly Change[] = [
      { kind: "mark", id: ring.id, before: null, after: ring },
      { kind: "mark", id: ring.id, before: ring, after: moved },
      { kind: "mark", id: ring.id, before: moved, after: null },
    ];
    for (const change of changes) await send(change, keeping, ids);
    expect(told).toEqual(["add m1", "add m2", "unmark m1", "unmark m2"]);
  });
  test("an event that returns to another clip is set there on its own frame, and a suggestion that returns is never kept as a mark", async () => {
    const { told, keeping } = keeper();
    const here = { event: "toe", frameIndex: 70, tick: 70, source: "coach", sdSeconds: null } as const;
    const there = { ...here, frameIndex: 76, tick: 76.4, elsewhere: { clipId: "side", view: "side", frameIndex: 252, secondsFromContact: -0.2 } } as const;
    await send({ kind: "event", event: "toe", before: here, after: there }, keeping, new Map());
    await send({ kind: "event", event: "toe", before: here, after: { ...here, source: "suggested" } }, keeping, new Map());
    expect(told).toEqual([`set [{"event":"toe","was":{"frameIndex":70},"frameIndex":252,"onClipId":"side"}]`, `clear [{"event":"toe","was":{"frameIndex":70}}]`]);
  });
  test("taking a placed point back to a suggestion forgets the placing and places nothing", async () => {
    const { told, keeping } = keeper();
    const guess = { frameIndex: 5, point: "kn_f", x: 1, y: 2, source: "suggested" } as const;
    await send({ kind: "point", frameIndex: 5, point: "kn_f", before: { ...guess, source: "coach" }, after: guess }, keeping, new Map());
    expect(told).toEqual(['remove [{"frameIndex":5,"point":"kn_f","was":{"x":1,"y":2}}]']);
  });
  test("an exchange is taken back by exchanging once more, and copied points by forgetting them, each in one sending", async () => {
    const { told, keeping } = keeper();
    const hip = { frameIndex: 5, point: "hip_f", x: 1, y: 2, source: "coach" } as const;
    const swap: Change = { kind: "points", by: "swap", frameIndex: 5, steps: [{ point: "hip_f", before: hip, after: null }, { point: "hip_b", before: null, after: { ...hip, point: "hip_b" } }] };
    const copy: Change = { kind: "points", by: "copy", frameIndex: 5, steps: [{ point: "hip_f", before: null, after: hip }, { point: "tip", before: null, after: { ...hip, point: "tip" } }] };
    for (const change of [swap, invertChange(swap), copy, invertChange(copy)]) await send(change, keeping, new Map());
    const place = '{"x":1,"y":2}';
    const exchanged = (front: string, back: string) => `swap [{"frameIndex":5,"pairs":["hip"],"were":[{"point":"hip_f","was":${front}},{"point":"hip_b","was":${back}}]}]`;
    const several = (was: string, now: string) => `place several [{"frameIndex":5,"points":[{"point":"hip_f","was":${was},"place":${now}},{"point":"tip","was":${was},"place":${now}}]}]`;
    expect(told).toEqual([exchanged(place, "null"), exchanged("null", place), several("null", place), several(place, "null")]);
  });
  test("an event that is taken away is cleared, and one that is set names its frame", async () => {
    const { told, keeping } = keeper();
    const plant = { event: "plant", frameIndex: 7, tick: 2625, source: "coach", sdSeconds: null } as const;
    await send({ kind: "event", event: "plant", before: null, after: plant }, keeping, new Map());
    await send({ kind: "event", event: "plant", before: plant, after: null }, keeping, new Map());
    expect(told).toEqual(['set [{"event":"plant","was":null,"frameIndex":7}]', 'clear [{"event":"plant","was":{"frameIndex":7}}]']);
  });
  test("every change says what a person had said before it: a suggestion is nothing, an event of another clip stands there", async () => {
    const { told, keeping } = keeper();
    const guess = { frameIndex: 5, point: "kn_f", x: 1, y: 2, source: "suggested" } as const;
    const placed = { ...guess, x: 3, source: "coach" } as const;
    const toe = { event: "toe", frameIndex: 76, tick: 76.4, source: "coach", sdSeconds: null, elsewhere: { clipId: "side", view: "side", frameIndex: 252, secondsFromContact: -0.2 } } as const;
    const changes: readonly Change[] = [
      { kind: "point", frameIndex: 5, point: "kn_f", before: guess, after: placed },
      { kind: "point", frameIndex: 5, point: "kn_f", before: "unseen", after: placed },
      { kind: "event", event: "toe", before: toe, after: null },
    ];
    for (const change of changes) await send(change, keeping, new Map());
    expect(told.map((it) => (JSON.parse(it.slice(it.indexOf("["))) as [{ was: unknown }])[0].was)).toEqual([null, "unseen", { clipId: "side", frameIndex: 252 }]);
  });
  test("who was faster is named, and that theirs stands", () => {
    const change: Change = { kind: "event", event: "plant", before: null, after: null };
    expect(notKept(change, new Overtaken("Ana Reed set it on another frame at 3:12 PM."))).toBe("Plant was not kept as you had it. Ana Reed set it on another frame at 3:12 PM. That stands now.");
  });
  test("what was not kept is named, with the reason when it is a sentence", () => {
    const change: Change = { kind: "event", event: "plant", before: null, after: null };
    expect(notKept(change, new ToldProblem("The line to the house was lost."))).toBe("Plant was not kept. The line to the house was lost. All stands as it was before; please try again.");
    expect(notKept(change, new Error("Failed to fetch."))).toBe("Plant was not kept. All stands as it was before; please try again.");
    expect(notKept(change, new Error("ECONNRESET"))).toBe("Plant was not kept. All stands as it was before; please try again.");
  });
});
