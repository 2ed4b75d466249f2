import { describe, expect, test } from "vitest";
import type { EventView, MarkView } from "../view";
import { applyChange, eventAtFrame, findPoint, invertChange, overPresent, renameInChange, renameMark, type Change, type Kept } from "./kept";

const contact: EventView = { event: "contact", frameIndex: 9, tick: 900, source: "suggested", sdSeconds: 0.01 };
const ring: MarkView = { id: "a", frameIndex: 9, shape: { v: 1, kind: "ring", cx: 5, cy: 6, rx: 2, ry: 3 } };
const words: MarkView = { id: "b", frameIndex: 9, shape: { v: 1, kind: "words", x: 1, y: 2, text: "foot went first" } };
const kept: Kept = {
  events: [contact],
  points: [{ frameIndex: 9, point: "heel_b", x: 4, y: 5, source: "suggested" }],
  unseenPoints: [{ frameIndex: 9, point: "toe_b" }],
  marks: [ring, words],
};
const sorted = (it: Kept) => ({
  events: [...it.events].sort((a, b) => a.event.localeCompare(b.event)),
  points: [...it.points].sort((a, b) => a.point.localeCompare(b.point)),
  unseenPoints: [...it.unseenPoints].sort((a, b) => a.point.localeCompare(b.point)),
  marks: it.marks.map((mark) => mark.id).sort(),
});

const changes: readonly Change[] = [
  { kind: "event", event: "contact", before: contact, after: { ...contact, frameIndex: 8, tick: 800, source: "coach" } },
  { kind: "event", event: "plant", before: null, after: { ...contact, event: "plant" } },
  { kind: "event", event: "contact", before: contact, after: null },
  { kind: "point", frameIndex: 9, point: "heel_b", before: kept.points[0] ?? null, after: "unseen" },
  { kind: "point", frameIndex: 9, point: "toe_b", before: "unseen", after: { frameIndex: 9, point: "toe_b", x: 1, y: 1, source: "coach" } },
  { kind: "point", frameIndex: 3, point: "toe_b", before: null, after: { frameIndex: 3, point: "toe_b", x: 1, y: 1, source: "coach" } },
  { kind: "mark", id: "a", before: ring, after: null },
  { kind: "mark", id: "a", before: ring, after: { ...ring, shape: { v: 1, kind: "ring", cx: 50, cy: 6, rx: 2, ry: 3 } } },
  { kind: "mark", id: "c", before: null, after: { ...ring, id: "c" } },
];

describe("changes to what is kept", () => {
  test("a change and its inverse leave everything as it was", () => {
    for (const change of changes) expect(sorted(applyChange(applyChange(kept, change), invertChange(change)))).toEqual(sorted(kept));
  });
  test("a point that cannot be seen has no place, and a placed point is not unseen", () => {
    const hidden = applyChange(kept, changes[3]!);
    expect(findPoint(hidden, 9, "heel_b")).toBe("unseen");
    expect(hidden.points).toEqual([]);
    expect(applyChange(kept, changes[4]!).unseenPoints).toEqual([]);
  });
  test("an event stands once, whatever was set before", () => {
    expect(applyChange(kept, changes[0]!).events.filter((it) => it.event === "contact")).toHaveLength(1);
  });
  test("an edited mark keeps its place in the list", () => {
    expect(applyChange(kept, changes[7]!).marks.map((it) => it.id)).toEqual(["a", "b"]);
  });
  test("a mark's lasting name reaches the changes that speak of it and no others", () => {
    expect(renameMark(kept, "a", "z").marks.map((it) => it.id)).toEqual(["z", "b"]);
    expect(renameInChange(changes[6]!, "a", "z")).toMatchObject({ id: "z", before: { id: "z" }, after: null });
    expect(renameInChange(changes[8]!, "a", "z")).toBe(changes[8]);
  });
  test("a change made over what stands now takes that back when it is undone", () => {
    for (const change of changes) expect(sorted(applyChange(applyChange(kept, change), invertChange(overPresent(change, kept))))).toEqual(sorted(kept));
    expect(overPresent({ kind: "point", frameIndex: 9, point: "heel_b", before: null, after: null }, kept)).toMatchObject({ before: kept.points[0] });
  });
  test("an event set by the coach stands on the frame's own tick", () => {
    const clip = { frameTimes: { timeBaseNum: 1, timeBaseDen: 90_000, ticks: [10, 385, 761] } };
    expect(eventAtFrame(clip, "plant", 2)).toEqual({ event: "plant", frameIndex: 2, tick: 761, source: "coach", sdSeconds: null });
    expect(eventAtFrame(clip, "plant", 3)).toBeNull();
  });
});
