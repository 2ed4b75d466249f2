import { describe, expect, test } from "vitest";
import type { EventView, PointId, PointView } from "../../view";
import { besideClip } from "../beside/beside-clip.fixture";
import { findPoint, invertChange, type Change, type Kept } from "../kept";
import { startState, viewerReducer, type ViewerState } from "../viewer-state";
import type { PointRun } from "../waiting-runs";
import { betweenView, waitingOn } from "./between-view";

const FRAMES = 120;
const ticks = Array.from({ length: FRAMES }, (_, i) => i * 375);
const contact: EventView = { event: "contact", frameIndex: 80, tick: ticks[80] ?? 0, source: "coach", sdSeconds: null };
const spot = (point: PointId, frameIndex: number): PointView => ({ frameIndex, point, x: 600 + frameIndex, y: point === "hip_f" ? 350 : 480, source: "coach" });
const kept: Kept = { events: [contact], marks: [], unseenPoints: [], points: (["hip_f", "kn_f"] as const).flatMap((point) => [60, 80].map((frame) => spot(point, frame))) };
const run = (point: PointId): PointRun => ({ point, from: "launch", to: "contact", frames: Array.from({ length: 21 }, (_, i) => 60 + i), readings: 2 });
const runs = [run("hip_f"), run("kn_f")];
const clip = besideClip({ ticks });
const viewOf = ({ kept: now }: Pick<ViewerState, "kept">) => betweenView(clip, now.points, now.unseenPoints, now.events, runs);

/** Goes to the next best frame, as N does. */
function toBest(state: ViewerState) {
  const { best } = viewOf(state);
  if (!best) throw new Error("no frame would help");
  return { inHand: { frame: best.frame, points: best.points }, state: viewerReducer(state, { kind: "show", frameIndex: best.frame }) };
}

describe("the next best frame", () => {
  const begun = toBest(startState(kept, FRAMES, { width: 1280, height: 720 }, 10));
  const { inHand } = begun;
  const place = (state: ViewerState, point: PointId): ViewerState => {
    const change: Change = { kind: "point", frameIndex: inHand.frame, point, before: findPoint(state.kept, inHand.frame, point), after: spot(point, inHand.frame) };
    return viewerReducer(viewerReducer(state, { kind: "apply", change, way: "new" }), { kind: "kept", renamed: null });
  };
  const back = (state: ViewerState): ViewerState => {
    const last = state.undo.at(-1);
    if (!last) throw new Error("nothing to take back");
    return viewerReducer(state, { kind: "apply", change: invertChange(last), way: "back" });
  };
  const waiting = (state: ViewerState) => waitingOn(inHand, state.kept, state.frameIndex);
  const placed = inHand.points.reduce(place, begun.state);

  test("lies within a stretch that is wanted and asks for all its points; going there changes nothing that is kept", () => {
    expect(inHand.frame).toBeGreaterThan(60);
    expect(inHand.frame).toBeLessThan(80);
    expect([...inHand.points].sort()).toEqual(["hip_f", "kn_f"]);
    expect(begun.state).toMatchObject({ kept, undo: [], frameIndex: inHand.frame });
    expect(waiting(begun.state)).toEqual(inHand.points);
  });

  test("asks for one point after another, and then for another frame", () => {
    expect(waiting(place(begun.state, inHand.points[0] ?? "hip_f"))).toEqual(inHand.points.slice(1));
    expect(waiting(placed)).toEqual([]);
    expect(viewOf(placed).best?.frame).not.toBe(inHand.frame);
  });

  test("taken back point by point asks for them again, the last one first, until the same frame is the next best one; done again it is as it was", () => {
    const once = back(placed);
    expect(waiting(once)).toEqual(inHand.points.slice(-1));
    const twice = back(once);
    expect(waiting(twice)).toEqual(inHand.points);
    expect(twice.kept).toEqual(kept);
    expect(viewOf(twice).best).toEqual(viewOf(begun.state).best);
    const again = [...twice.redo].reverse().reduce((state, change) => viewerReducer(state, { kind: "apply", change, way: "again" }), twice);
    expect(again.kept).toEqual(placed.kept);
    expect(waiting(again)).toEqual([]);
  });

  test("is asked for only on the frame itself, and a point that cannot be seen is not asked for", () => {
    expect(waiting(viewerReducer(begun.state, { kind: "step", by: 1 }))).toEqual([]);
    const [first, ...others] = inHand.points;
    const unseen: Kept = { ...kept, unseenPoints: [{ frameIndex: inHand.frame, point: first ?? "hip_f" }] };
    expect(waitingOn(inHand, unseen, inHand.frame)).toEqual(others);
  });
});
