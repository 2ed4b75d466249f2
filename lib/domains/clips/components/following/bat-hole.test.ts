import { describe, expect, test } from "vitest";
import type { PointId, PointView } from "../../view";
import { invertChange, applyChange, type Kept } from "../kept";
import { batByHand, batHolesAt } from "./bat-hole";
import { takeFollowed } from "./followed-taken";

const at = (frameIndex: number, point: PointId, more: Partial<PointView> = {}): PointView => ({ frameIndex, point, x: frameIndex, y: 9, source: "coach", ...more });
const both = (...frames: number[]) => frames.flatMap((frame) => [at(frame, "knob"), at(frame, "tip")]);
const ticks = Array.from({ length: 80 }, (_, i) => i * 100);
const holes = (points: readonly PointView[], frameIndex: number, contact: number | null = 7000, unseen: readonly { frameIndex: number; point: PointId }[] = []) => batHolesAt(points, unseen, frameIndex, ticks, contact);

describe("a stretch over which the bat is followed", () => {
  test("lies between the hand-placed frames around the frame shown; on a placed frame it is the one that begins there, else the one that ends there", () => {
    const points = both(10, 20, 34);
    expect(holes(points, 15)).toEqual([{ from: 10, to: 20, points: ["knob", "tip"] }]);
    expect(holes(points, 20)).toEqual([{ from: 20, to: 34, points: ["knob", "tip"] }]);
    expect(holes(points, 34)).toEqual([{ from: 20, to: 34, points: ["knob", "tip"] }]);
    expect(holes(points, 40)).toEqual([]);
  });

  test("is another for each end where they are placed on other frames", () => {
    expect(holes([at(10, "knob"), at(20, "knob"), at(12, "tip"), at(20, "tip")], 15)).toEqual([{ from: 10, to: 20, points: ["knob"] }, { from: 12, to: 20, points: ["tip"] }]);
  });

  test("is none across contact, over more frames than are held, or where all between is said", () => {
    expect(holes(both(10, 20), 15, 1500)).toEqual([]);
    expect(holes(both(10, 20), 15, 2000)).toHaveLength(1);
    expect(holes(both(10, 35), 15)).toEqual([]);
    expect(holes(both(10, 12), 11, null, [{ frameIndex: 11, point: "tip" }])).toEqual([{ from: 10, to: 12, points: ["knob"] }]);
    expect(holes([...both(10, 12), at(11, "knob"), at(11, "tip")], 11)).toEqual([]);
  });

  test("begins at no suggestion and at nothing that was followed itself", () => {
    const points = [...both(10, 20), at(15, "tip", { followedSdPx: 1 }), at(16, "knob", { source: "suggested" })];
    expect(batByHand(points)).toEqual(new Map([10, 20].map((x) => [x, { knob: { x, y: 9 }, tip: { x, y: 9 } }])));
    expect(holes(points, 15)).toEqual([{ from: 10, to: 20, points: ["knob", "tip"] }]);
  });
});

describe("what was followed, taken", () => {
  const place = (frame: number, point: "knob" | "tip") => ({ frame, point, x: 5, y: 6, sdPx: 2, ownSdPx: 0.7 });
  const kept: Kept = { events: [], points: [...both(10, 14), at(12, "tip"), at(11, "knob", { source: "suggested" })], unseenPoints: [{ frameIndex: 13, point: "tip" }], marks: [] };

  test("is placed with its own SD on every frame of which nobody has said anything, and taken back in one step to what stood there", () => {
    const taken = takeFollowed(kept, [11, 12, 13].flatMap((frame) => [place(frame, "knob"), place(frame, "tip")]));
    expect(taken?.steps.map(({ frameIndex, point }) => `${frameIndex} ${point}`)).toEqual(["11 knob", "11 tip", "12 knob", "13 knob"]);
    if (!taken) return;
    const after = applyChange(kept, taken);
    expect(after.points).toContainEqual({ frameIndex: 12, point: "knob", x: 5, y: 6, source: "coach", followedSdPx: 0.7 });
    const back = applyChange(after, invertChange(taken));
    expect(new Set(back.points)).toEqual(new Set(kept.points));
    expect(back.unseenPoints).toEqual(kept.unseenPoints);
  });

  test("is nothing when all has been said meanwhile", () => {
    expect(takeFollowed(kept, [place(12, "tip"), place(13, "tip")])).toBeNull();
  });
});
