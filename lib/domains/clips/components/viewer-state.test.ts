import { describe, expect, test } from "vitest";
import type { EventView, MarkView } from "../view";
import type { Kept } from "./kept";
import { startState, viewerReducer, type ViewerAction, type ViewerState } from "./viewer-state";

const empty: Kept = { events: [], points: [{ frameIndex: 5, point: "kn_f", x: 30, y: 40, source: "coach" }], unseenPoints: [], marks: [] };
const start = startState(empty, 40, { width: 1280, height: 720 }, 5);
const after = (state: ViewerState, ...actions: readonly ViewerAction[]) => actions.reduce(viewerReducer, state);
const plant = (frameIndex: number): EventView => ({ event: "plant", frameIndex, tick: frameIndex * 375, source: "coach", sdSeconds: null });
const ring: MarkView = { id: "drawn-1", frameIndex: 5, shape: { v: 1, kind: "ring", cx: 9, cy: 9, rx: 4, ry: 4 } };

describe("gestures", () => {
  const begun: readonly ViewerAction[] = [
    { kind: "begin", gesture: { kind: "cross", before: start.cross } },
    { kind: "begin", gesture: { kind: "point", point: "kn_f", grip: { x: 0, y: 0 }, at: { x: 30, y: 40 } } },
    { kind: "begin", gesture: { kind: "draw", tool: "ring", from: { x: 1, y: 1 }, to: { x: 1, y: 1 } } },
    { kind: "begin", gesture: { kind: "write", at: { x: 1, y: 1 } } },
    { kind: "begin", gesture: { kind: "mark", id: "a", handle: "whole", grip: { x: 9, y: 9 }, before: ring.shape, at: ring.shape } },
    { kind: "begin", gesture: { kind: "look", before: start.look } },
  ];
  test("a gesture that is cancelled leaves everything as it was before it began", () => {
    for (const begin of begun) {
      const moved = after(start, begin, { kind: "move", to: { x: 77, y: 88 } }, { kind: "look", look: begin.kind === "begin" && begin.gesture.kind === "look" ? { zoom: 3, centre: { x: 1, y: 1 } } : start.look });
      expect(moved).not.toEqual(start);
      expect(after(moved, { kind: "cancel" })).toEqual(start);
    }
  });
  test("nothing is kept while a point is being dragged, and the hand keeps its hold on it", () => {
    const dragging = after(start, { kind: "begin", gesture: { kind: "point", point: "kn_f", grip: { x: 2, y: -3 }, at: { x: 30, y: 40 } } }, { kind: "move", to: { x: 52, y: 57 } });
    expect(dragging.kept).toBe(start.kept);
    expect(dragging.gesture).toMatchObject({ at: { x: 50, y: 60 } });
  });
  test("another frame is another place: a gesture ends unkept when one steps", () => {
    const drawing = after(start, { kind: "tool", tool: "line" }, { kind: "begin", gesture: { kind: "draw", tool: "line", from: { x: 1, y: 1 }, to: { x: 9, y: 9 } } });
    expect(after(drawing, { kind: "step", by: 1 }).gesture).toEqual({ kind: "none" });
  });
  test("a tool is put down after it has drawn once, and stays in hand when a drawing is cancelled", () => {
    const drawing = after(start, { kind: "tool", tool: "line" }, { kind: "begin", gesture: { kind: "draw", tool: "line", from: { x: 1, y: 1 }, to: { x: 9, y: 9 } } });
    expect(after(drawing, { kind: "end" }).tool).toBeNull();
    expect(after(drawing, { kind: "cancel" }).tool).toBe("line");
  });
});

describe("what is kept", () => {
  const set = { kind: "event", event: "plant", before: null, after: plant(7) } as const;
  const move = { kind: "event", event: "plant", before: set.after, after: plant(9) } as const;
  test("a change that was not kept is taken back with a sentence and cannot be undone", () => {
    const failed = after(start, { kind: "apply", change: set, way: "new" }, { kind: "failed", change: set, sentence: "Plant was not kept.", isOvertaken: false });
    expect(failed.kept.events).toEqual([]);
    expect(failed).toMatchObject({ failure: "Plant was not kept.", undo: [], pending: 0 });
  });
  test("a later change of the same event stands when the earlier one fails", () => {
    const failed = after(start, { kind: "apply", change: set, way: "new" }, { kind: "apply", change: move, way: "new" }, { kind: "failed", change: set, sentence: "Plant was not kept.", isOvertaken: false });
    expect(failed.kept.events).toEqual([move.after]);
  });
  test("what the server sends is taken only when nothing is on its way to it", () => {
    const sent: Kept = { ...empty, events: [plant(3)] };
    const busy = after(start, { kind: "apply", change: set, way: "new" });
    expect(after(busy, { kind: "take", kept: sent }).kept.events).toEqual([set.after]);
    expect(after(busy, { kind: "kept", renamed: null }, { kind: "take", kept: sent }).kept).toBe(sent);
  });
  test("a drawn mark can be undone under the name the server gave it", () => {
    const drawn = after(start, { kind: "apply", change: { kind: "mark", id: ring.id, before: null, after: ring }, way: "new" }, { kind: "kept", renamed: { from: ring.id, to: "m1" } });
    expect(drawn.kept.marks[0]?.id).toBe("m1");
    expect(drawn.undo[0]).toMatchObject({ id: "m1", after: { id: "m1" } });
  });
});

describe("taking back and doing again", () => {
  const set = { kind: "event", event: "plant", before: null, after: plant(7) } as const;
  const back = { ...set, before: set.after, after: null };
  const undone = after(start, { kind: "apply", change: set, way: "new" }, { kind: "apply", change: back, way: "back" });
  test("what was taken back can be done again, and then taken back again", () => {
    expect(undone).toMatchObject({ undo: [], redo: [set], kept: { events: [] } });
    expect(after(undone, { kind: "apply", change: set, way: "again" })).toMatchObject({ undo: [set], redo: [], kept: { events: [set.after] } });
  });
  test("after a new change there is nothing to do again", () => {
    expect(after(undone, { kind: "apply", change: { ...set, event: "toe" }, way: "new" }).redo).toEqual([]);
  });
  test("a mark that is drawn again has the name that the server gives it now", () => {
    const drawn = { kind: "mark", id: ring.id, before: null, after: ring } as const;
    const again = after(start, { kind: "apply", change: drawn, way: "new" }, { kind: "apply", change: { ...drawn, before: ring, after: null }, way: "back" }, { kind: "kept", renamed: { from: ring.id, to: "m1" } });
    expect(again.redo[0]).toMatchObject({ id: "m1" });
  });
  test("a change that somebody was faster than is held until the person has decided, and left when something new is done", () => {
    const busy = after(start, { kind: "apply", change: set, way: "new" });
    const overtaken = after(busy, { kind: "failed", change: set, sentence: "Plant was not kept as you had it.", isOvertaken: true });
    expect(overtaken).toMatchObject({ overtaken: set, kept: { events: [] } });
    expect(after(overtaken, { kind: "read-failure" })).toMatchObject({ overtaken: null, failure: null });
    expect(after(overtaken, { kind: "apply", change: set, way: "new" }).overtaken).toBeNull();
  });
});

describe("going through the frames", () => {
  test("stepping holds the playing and says which way one goes", () => {
    const playing = after(start, { kind: "play", isPlaying: true });
    expect(after(playing, { kind: "step", by: -1 })).toMatchObject({ frameIndex: 4, travel: -1, isPlaying: false });
  });
  test("the event of the frame one comes to is in hand, and stays in hand when one goes on", () => {
    const there = after(startState({ ...empty, events: [plant(6)] }, 40, start.picture, 5), { kind: "step", by: 1 });
    expect(there.eventInHand).toBe("plant");
    expect(after(there, { kind: "step", by: 1 }).eventInHand).toBe("plant");
  });
});
