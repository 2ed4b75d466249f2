import { describe, expect, it } from "vitest";
import type { EventId, EventView } from "../view";
import { slowMotionOf, toldStretches } from "./told-stretches";

const event = (id: EventId, frameIndex: number, more: Partial<EventView> = {}): EventView => ({ event: id, frameIndex, tick: frameIndex * 3000, source: "coach", sdSeconds: null, ...more });
const clip = (events: readonly EventView[], more: object = {}) => ({
  events, frameTimes: { timeBaseNum: 1, timeBaseDen: 90_000, ticks: Array.from({ length: 300 }, (_, i) => i * 3000) }, realSecondsPerFileSecond: 1,
  facts: { task: "live", pitchHeight: null, pitchSide: null, effort: null }, ...more,
});

describe("a clip's own stretches", () => {
  it("240 frames a second that play at 30 give an impossible landing and the question", () => {
    const slow = clip([event("plant", 100), event("contact", 141)]);
    expect(toldStretches(slow)[0]?.seconds).toBeCloseTo(41 / 30, 9);
    expect(slowMotionOf(slow)?.question).toBe("Landing to contact would be 1.37 s. Was this filmed at 240 and slowed 8 times?");
    expect(slowMotionOf({ ...slow, realSecondsPerFileSecond: 1 / 8 })).toBeNull();
  });
  it("only marks of a coach on this clip are told, and off a tee the landing is not", () => {
    expect(toldStretches(clip([event("plant", 100, { source: "suggested" }), event("contact", 141)]))).toEqual([]);
    expect(toldStretches(clip([event("plant", 100, { elsewhere: { clipId: "c", view: "front", frameIndex: 1, secondsFromContact: -1 } }), event("contact", 141)]))).toEqual([]);
    expect(toldStretches(clip([event("plant", 100)]))).toEqual([]);
    expect(slowMotionOf(clip([event("plant", 100), event("contact", 141)], { facts: { task: "tee", pitchHeight: null, pitchSide: null, effort: null } }))).toBeNull();
  });
});
