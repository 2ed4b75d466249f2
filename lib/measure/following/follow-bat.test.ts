import { describe, expect, it } from "vitest";
import { batCourse, type BatEnds } from "./bat-course";
import { followBat, framesOf, MOST_FRAMES_APART } from "./follow-bat";
import type { GreyPicture } from "./grey-picture";
import { pyramidOf } from "./pyramid";

const [WIDE, HIGH, LENGTH] = [200, 160, 70];
const seconds = Array.from({ length: 60 }, (_, i) => i / 240);

/** A patterned bat that turns about a knob that moves, before a patterned wall. */
const batAt = (frame: number) => ({ knob: { x: 60 + 2.3 * frame, y: 90 - 0.8 * frame }, turnRad: -0.9 + 0.07 * frame });
const endsAt = (frame: number): Required<BatEnds> => {
  const { knob, turnRad } = batAt(frame);
  return { knob, tip: { x: knob.x + LENGTH * Math.cos(turnRad), y: knob.y + LENGTH * Math.sin(turnRad) } };
};
const wall = (x: number, y: number) => 90 + 12 * Math.sin(0.23 * x) * Math.cos(0.19 * y);

function pictureOf(frame: number, isSeen = true): GreyPicture {
  const { knob, turnRad } = batAt(frame);
  const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)];
  const values = new Float32Array(WIDE * HIGH);
  for (let v = 0; v < HIGH; v++) {
    for (let u = 0; u < WIDE; u++) {
      const [x, y] = [u + 0.5, v + 0.5];
      const [along, across] = [(x - knob.x) * cos + (y - knob.y) * sin, (y - knob.y) * cos - (x - knob.x) * sin];
      const [inside, within] = [Math.min(along + 4, LENGTH - along), 6 - Math.abs(across)];
      const cover = isSeen ? 1 / (1 + Math.exp(-2 * Math.min(inside, within))) : 0;
      values[v * WIDE + u] = cover * (170 + 40 * Math.sin(0.45 * along + 0.2 * across) + 5 * across) + (1 - cover) * wall(x, y);
    }
  }
  return { widthPx: WIDE, heightPx: HIGH, values };
}

const hole = (from: number, to: number, placed: ReadonlyMap<number, BatEnds> = new Map([from, to].map((frame) => [frame, endsAt(frame)]))) => ({ from, to, placed, placedSdPx: 1.5, torsoPx: 120, seconds });
const pyramids = (of: (frame: number) => GreyPicture | null) => (frame: number) => {
  const picture = of(frame);
  return picture && pyramidOf(picture, 3);
};

describe("the bat followed between two placed frames", () => {
  it("is found on every frame to a quarter of a pixel, and no place is surer than the placed ones allow", () => {
    const places = followBat(hole(2, 14), pyramids(pictureOf));
    expect(places).toHaveLength(2 * 11);
    for (const { point, frame, x, y, sdPx } of places) {
      const actual = endsAt(frame)[point];
      expect(Math.hypot(x - actual.x, y - actual.y), `${point} on ${frame}`).toBeLessThan(0.25);
      expect(sdPx).toBeGreaterThan(1.5 * Math.SQRT1_2);
      expect(sdPx).toBeLessThan(3);
    }
  });

  it("is not said where it went behind something and what stands still looked as sound", () => {
    expect(followBat(hole(2, 14), pyramids((frame) => pictureOf(frame, frame < 6 || frame > 10)))).toEqual([]);
  });

  it("is not said where the two placed frames contradict each other", () => {
    const away = { x: endsAt(14).knob.x + 10, y: endsAt(14).knob.y };
    const places = followBat(hole(2, 14, new Map([[2, endsAt(2)], [14, { ...endsAt(14), knob: away }]])), pyramids(pictureOf));
    expect(places.filter(({ point }) => point === "knob")).toEqual([]);
    expect(places.filter(({ point }) => point === "tip")).toHaveLength(11);
  });

  it("is said where both passes meet before a picture that is missing, and nowhere if they cannot meet", () => {
    expect(followBat(hole(2, 14), pyramids((frame) => (frame === 8 ? null : pictureOf(frame))))).toEqual([]);
  });

  it("with one end placed only that one is followed", () => {
    const knobs = new Map([2, 8].map((frame) => [frame, { knob: endsAt(frame).knob }]));
    expect(new Set(followBat(hole(2, 8, knobs), pyramids(pictureOf)).map(({ point }) => point))).toEqual(new Set(["knob"]));
  });

  it("is not followed over more frames than are held", () => {
    const [from, to] = [0, MOST_FRAMES_APART + 1];
    expect(followBat(hole(from, to), () => { throw new Error("asked for"); })).toEqual([]);
    expect(framesOf(hole(3, 6))).toEqual([3, 4, 5, 6]);
  });
});

describe("the course between placed frames", () => {
  it("swings the tip around the knob and does not cut its arc short", () => {
    const placed = new Map([0, 10, 20, 30].map((frame) => [frame, endsAt(frame)]));
    const course = batCourse(seconds, placed, 10, 20);
    for (const frame of [12, 15, 18]) {
      const { ends, turnRad } = course(frame);
      const actual = endsAt(frame);
      expect(Math.hypot((ends.tip?.x ?? NaN) - actual.tip.x, (ends.tip?.y ?? NaN) - actual.tip.y)).toBeLessThan(0.05);
      expect(turnRad).toBeCloseTo(batAt(frame).turnRad, 4);
    }
  });

  it("goes the shorter way around where the bat passes straight back", () => {
    const across = new Map([170, 190].map((deg, i) => [i * 4, { knob: { x: 0, y: 0 }, tip: { x: 50 * Math.cos((deg * Math.PI) / 180), y: 50 * Math.sin((deg * Math.PI) / 180) } }]));
    expect(batCourse(seconds, across, 0, 4)(2).ends.tip?.x).toBeCloseTo(-50, 6);
  });
});
