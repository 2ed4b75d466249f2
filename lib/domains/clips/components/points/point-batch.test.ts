import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { POINT_PAIRS } from "../../points/schema";
import { pointIds, type PointView } from "../../view";
import { applyChange, findPoint, invertChange, overPresent, type Kept } from "../kept";
import { startState, viewerReducer } from "../viewer-state";
import { copyBatch, placedNeighbour, suggestionsOn, swapBatch, takeBatch } from "./point-batch";

const anyKept = fc.array(fc.record({ frameIndex: fc.integer({ min: 0, max: 4 }), point: fc.constantFrom(...pointIds), state: fc.constantFrom("coach", "suggested", "unseen"), x: fc.integer({ min: 0, max: 9 }) }), { maxLength: 60 }).map((all): Kept => {
  const once = [...new Map(all.map((it) => [`${it.frameIndex} ${it.point}`, it])).values()];
  const placed = once.flatMap(({ frameIndex, point, state, x }): PointView[] => (state === "unseen" ? [] : [{ frameIndex, point, x, y: x, source: state as PointView["source"] }]));
  return { events: [], marks: [], points: placed, unseenPoints: once.filter(({ state }) => state === "unseen").map(({ frameIndex, point }) => ({ frameIndex, point })) };
});
const told = (kept: Kept) => [0, 1, 2, 3, 4].map((frame) => pointIds.map((point) => findPoint(kept, frame, point)));

describe("front and back exchanged", () => {
  test("twice is as it was, and every place, suggestion and unseen point goes to the other side", () => {
    fc.assert(fc.property(anyKept, (kept) => {
      const batch = swapBatch(kept, 2, POINT_PAIRS);
      if (!batch) return;
      const swapped = applyChange(kept, batch);
      const again = swapBatch(swapped, 2, POINT_PAIRS);
      expect(told(applyChange(swapped, again!))).toEqual(told(kept));
      for (const pair of POINT_PAIRS) {
        const [front, back] = [findPoint(kept, 2, `${pair}_f`), findPoint(swapped, 2, `${pair}_b`)];
        expect(typeof back === "object" && back ? { ...back, point: front && front !== "unseen" ? front.point : null } : back).toEqual(front);
      }
    }));
  });
  test("one limb leaves the others, and points that the body has once, as they were", () => {
    fc.assert(fc.property(anyKept, (kept) => {
      const batch = swapBatch(kept, 2, ["el", "wr"]);
      const swapped = batch ? applyChange(kept, batch) : kept;
      for (const point of pointIds) if (!/^(el|wr)_/.test(point)) expect(findPoint(swapped, 2, point)).toEqual(findPoint(kept, 2, point));
    }));
  });
  test("of a frame on which nothing is known nothing is exchanged", () => {
    expect(swapBatch({ events: [], marks: [], points: [], unseenPoints: [] }, 2, POINT_PAIRS)).toBeNull();
  });
});

describe("points of a neighbour frame", () => {
  test("what a coach said of this frame stays, only a coach's points are taken over, and undoing leaves all as it was", () => {
    fc.assert(fc.property(anyKept, (kept) => {
      const from = placedNeighbour(kept.points, 2, -1);
      const batch = from === null ? null : copyBatch(kept, 2, from);
      if (from === null || !batch) return;
      const copied = applyChange(kept, batch);
      for (const point of pointIds) {
        const [before, after, there] = [findPoint(kept, 2, point), findPoint(copied, 2, point), findPoint(kept, from, point)];
        const isSaid = before === "unseen" || before?.source === "coach";
        const isPlacedThere = there !== null && there !== "unseen" && there.source === "coach";
        expect(after).toEqual(!isSaid && isPlacedThere ? { ...there, frameIndex: 2 } : before);
      }
      expect(told(applyChange(copied, invertChange(batch)))).toEqual(told(kept));
    }));
  });
  test("the neighbour is the nearest frame in that direction on which a coach placed something", () => {
    const at = (frameIndex: number, source: PointView["source"] = "coach"): PointView => ({ frameIndex, point: "tip", x: 1, y: 1, source });
    const points = [at(1), at(4), at(6, "suggested"), at(9)];
    expect([placedNeighbour(points, 5, -1), placedNeighbour(points, 5, 1), placedNeighbour(points, 9, 1), placedNeighbour(points, 4, -1)]).toEqual([4, 9, null, 1]);
  });
});

describe("suggestions taken", () => {
  test("become a person's where they lie, and undone are suggestions again; what a person said and other frames stay", () => {
    fc.assert(fc.property(anyKept, (kept) => {
      const { drafts, weak } = suggestionsOn(kept, 2, "side");
      const batch = takeBatch([...drafts, ...weak], 2);
      expect(batch !== null).toBe(kept.points.some((it) => it.frameIndex === 2 && it.source === "suggested"));
      if (!batch) return;
      const taken = applyChange(kept, batch);
      for (const point of pointIds) {
        const before = findPoint(kept, 2, point);
        expect(findPoint(taken, 2, point)).toEqual(before && before !== "unseen" ? { ...before, source: "coach" } : before);
      }
      expect(told(applyChange(taken, invertChange(batch)))).toEqual(told(kept));
    }));
  });

  test("without a word of its own elbows and wrists are not among them", () => {
    const at = (point: PointView["point"]): PointView => ({ frameIndex: 2, point, x: 1, y: 1, source: "suggested" });
    const kept: Kept = { events: [], marks: [], unseenPoints: [], points: [at("hip_f"), at("el_f"), at("wr_b"), at("ear_b")] };
    const names = (points: readonly PointView[]) => points.map(({ point }) => point);
    expect(names(suggestionsOn(kept, 2, "side").drafts)).toEqual(["hip_f", "ear_b"]);
    expect(names(suggestionsOn(kept, 2, "rear").weak)).toEqual(["el_f", "wr_b", "ear_b"]);
  });
});

test("an exchange that somebody was faster than is made over what stands then", () => {
  const at = (x: number): Kept => ({ events: [], marks: [], unseenPoints: [], points: [{ frameIndex: 2, point: "hip_f", x, y: 1, source: "coach" }] });
  const over = overPresent(swapBatch(at(1), 2, POINT_PAIRS)!, at(5));
  expect(applyChange(at(5), over).points).toEqual([{ frameIndex: 2, point: "hip_b", x: 5, y: 1, source: "coach" }]);
});

test("several points that were not kept are taken back together", () => {
  const kept: Kept = { events: [], marks: [], unseenPoints: [], points: [{ frameIndex: 2, point: "hip_f", x: 1, y: 1, source: "coach" }] };
  const change = swapBatch(kept, 2, POINT_PAIRS)!;
  const state = startState(kept, 9, { width: 10, height: 10 }, 2);
  const applied = viewerReducer(state, { kind: "apply", change, way: "new" });
  expect(applied.kept.points).toMatchObject([{ point: "hip_b" }]);
  const failed = viewerReducer(applied, { kind: "failed", change, sentence: "Not kept.", isOvertaken: false });
  expect(failed.kept.points).toEqual(kept.points);
  expect(failed.undo).toEqual([]);
});
