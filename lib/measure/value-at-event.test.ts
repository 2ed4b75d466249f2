import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ClipInput } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { tracksOf, type ClipTracks, type Track } from "@/lib/measure/tracks";
import { lineWeightsAtZero, parabolaWeightsAtZero, pointAtContact, pointAtEvent, type PointAtTime } from "@/lib/measure/value-at-event";

/** A clip of unit intervals in milliseconds whose point lies at x = place(time in intervals). */
function clipOf(frames: readonly number[], place: (frame: number) => number, point: PointId = "an_f"): { track: Track; tracks: ClipTracks } {
  const clip: ClipInput = {
    view: "side", mirrored: false, secondsFromContact: Array.from({ length: 41 }, (_, i) => (i - 30) / 1000), captureFps: null, cameraOffDeg: null,
    cameraMoved: false, cameraZoomed: false, stabilised: false,
    points: Object.fromEntries(frames.map((frame) => [frame + 30, { [point]: { x: place(frame), y: 0, source: "placed" } }])),
  };
  const tracks = tracksOf(clip, "right");
  const track = tracks?.byPoint[point];
  if (!tracks || !track) throw new Error("no track");
  return { track, tracks };
}
const valueOf = (at: PointAtTime | string, track: Track) => (typeof at === "string" ? at : at.terms.reduce((sum, term) => sum + term.weight * (track.h[term.frame] ?? NaN), 0));
const atEvent = (frames: readonly number[], place: (frame: number) => number, time: number) => {
  const { track, tracks } = clipOf(frames, place);
  return valueOf(pointAtEvent(track, tracks, time / 1000, 0), track);
};
const atContact = (frames: readonly number[], place: (frame: number) => number, time = 0, point: PointId = "an_f") => {
  const { track, tracks } = clipOf(frames, place, point);
  return valueOf(pointAtContact(track, tracks, time / 1000, 0), track);
};

describe("a value at an event", () => {
  it("stands as it is on a frame within a tenth of an interval", () => {
    expect(atEvent([-10, -9], (frame) => frame ** 2, -9.9)).toBe(100);
  });
  it("knows of a bat how its speed changes, and of other points that it may be taken as steady", () => {
    const frames = Array.from({ length: 21 }, (_, i) => i - 20);
    const place = (frame: number) => 3 * frame ** 2;
    for (const [point, bend] of [["tip", 6e6], ["an_f", undefined]] as const) {
      const { track, tracks } = clipOf(frames, place, point);
      const at = pointAtEvent(track, tracks, -0.01, 0.004);
      expect(typeof at === "string" ? at : at.bend?.h).toEqual(bend === undefined ? undefined : expect.closeTo(bend, 0));
    }
  });
  it("moves with its event also where so few frames are placed that one of them is the nearest on both sides", () => {
    const { track, tracks } = clipOf([-14, -11, -8, -5], (frame) => 7 * frame);
    const at = pointAtEvent(track, tracks, -0.0108, 0.0011);
    expect(typeof at === "string" ? at : at.speed?.h).toBeCloseTo(7000, 6);
  });
  it("is linear between the frames beside it", () => {
    expect(atEvent([-10, -8], (frame) => 7 * frame, -9.5)).toBeCloseTo(-66.5, 9);
  });
  it("bridges three intervals and not four", () => {
    expect(atEvent([-10, -7], (frame) => frame, -9)).toBeCloseTo(-9, 9);
    expect(atEvent([-10, -6], (frame) => frame, -9)).toBe("gap");
  });
  it("needs a frame on both sides", () => {
    expect(atEvent([-10, -9], (frame) => frame, -8)).toBe("points-missing");
  });
});

describe("a value at contact", () => {
  it("is never taken from a frame after it", () => {
    expect(atContact([-4, -3, -2, -1, 1, 2, 3], (frame) => (frame < 0 ? frame : 1000), 0.5)).toBeCloseTo(0.5, 9);
  });
  it("stands as it is on the frame of contact", () => {
    expect(atContact([-1, 0, 1], (frame) => frame ** 3 + 5)).toBe(5);
  });
  it("of the bat and the wrists goes on along the parabola of the last three frames", () => {
    for (const point of ["tip", "knob", "wr_f", "wr_b"] as const) expect(atContact([-9, -3, -2, -1], (frame) => 4 + 3 * frame - 2 * frame ** 2, 0, point)).toBeCloseTo(4, 6);
  });
  it("of other points goes on along their least-squares line", () => {
    expect(atContact([-3, -2, -1], (frame) => frame ** 2)).toBeCloseTo(14 / 3 - 8, 9);
  });
  it("is unknown with fewer than three frames before it, or with the last more than 1.5 intervals before it", () => {
    expect(atContact([-2, -1], (frame) => frame)).toBe("points-missing");
    expect(atContact([-4, -3, -2], (frame) => frame)).toBe("points-missing");
    expect(atContact([-4, -3, -2], (frame) => frame, -0.5)).toBeCloseTo(-0.5, 9);
  });
});

describe("weights and speed", () => {
  it("weights of a line and of a parabola keep every line and parabola", () => {
    fc.assert(fc.property(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), fc.integer({ min: 1, max: 5 }), (a, b, c, step) => {
      const times = [-3 * step, -2 * step - 0.5, -step] as const;
      const sum = (weights: readonly number[], value: (t: number) => number) => times.reduce((total, t, i) => total + (weights[i] ?? NaN) * value(t), 0);
      expect(sum(lineWeightsAtZero(times), (t) => a + b * t)).toBeCloseTo(a, 8);
      expect(sum(parabolaWeightsAtZero(times), (t) => a + b * t + c * t * t)).toBeCloseTo(a, 7);
    }));
  });
  it("the speed of a steady point is its speed, and at contact it looks only back", () => {
    const { track, tracks } = clipOf([-3, -2, -1, 0, 1, 2], (frame) => (frame <= 0 ? 2 * frame : 500));
    const at = pointAtContact(track, tracks, 0, 0.001);
    expect(typeof at === "string" ? at : at.speed?.h).toBeCloseTo(2000, 6);
  });
  it("one placed frame says nothing about speed", () => {
    const { track, tracks } = clipOf([-5], () => 1);
    const at = pointAtEvent(track, tracks, -0.005, 0.002);
    expect(typeof at === "string" ? at : at.speed).toBeNull();
  });
});
