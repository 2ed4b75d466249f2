import { describe, expect, test, vi } from "vitest";
import checkpointFile from "@/seed/library/checkpoints.json";
import { swingSpec, VIEWS, type SwingSpec } from "../spec";
import { truthOf } from "../truth";
import { hitterGrid, seenBy } from "./hitter-grid";
import { lowPassed } from "./low-pass";
import { TrueReadingsOf } from "./true-readings";

vi.setConfig({ testTimeout: 30_000 });

const SPEC = swingSpec({ task: "toss", seed: 3, framesPerSecond: 60 });
const GRID = hitterGrid(SPEC);
const measuredIn = (view: SwingSpec["view"]) => checkpointFile.checkpoints.filter(({ views }) => views.measured.includes(view)).map(({ id }) => id);
const truthIn = (view: SwingSpec["view"], parts: Partial<SwingSpec> = {}) => new TrueReadingsOf(seenBy(GRID, { ...SPEC, view, ...parts }));

describe("true readings", () => {
  test.each(VIEWS)("every checkpoint of the library that the %s view measures has one for a clean swing", (view) => {
    const truth = truthIn(view);
    for (const id of measuredIn(view)) expect(truth.of(id).value, id).not.toBeNull();
  });

  test.each(VIEWS)("a left-handed swing reads as the right-handed one in the %s view", (view) => {
    const [right, left] = [truthIn(view, { side: "right" }), truthIn(view, { side: "left" })];
    for (const id of measuredIn(view)) expect(left.of(id).value, id).toBeCloseTo(right.of(id).value ?? NaN, 9);
  });

  test.each(VIEWS)("the size of the picture changes none in the %s view", (view) => {
    const [large, small] = [truthIn(view, { widthPx: 1920, heightPx: 1080 }), truthIn(view, { widthPx: 640, heightPx: 360 })];
    for (const id of measuredIn(view)) expect(small.of(id).value, id).toBeCloseTo(large.of(id).value ?? NaN, 6);
  });

  test("points between the grid's steps stand where the body puts them, within a hundredth of a pixel", () => {
    const { pointsAt } = truthOf(SPEC);
    const seen = seenBy(GRID, SPEC);
    for (const t of [-0.85031, -0.4137, -0.18833, -0.07777, -0.01249, 0.02341, 0.2991]) {
      for (const id of ["tip", "wr_b", "kn_f", "heel_b", "sh_f"] as const) {
        expect(Math.abs(seen.at(t)(id).h - pointsAt(t)[id].x), `${id} at ${t}`).toBeLessThan(0.01);
        expect(Math.abs(seen.at(t)(id).v + pointsAt(t)[id].y), `${id} at ${t}`).toBeLessThan(0.01);
      }
    }
  });

  test("off a tee nothing that needs a pitch is true", () => {
    const truth = truthIn("side", { task: "tee" });
    for (const id of ["plant-to-contact-time", "plant-in-ball-flight", "load-before-release", "shift-in-ball-flight"]) expect(truth.of(id).value, id).toBeNull();
  });

  test("a checkpoint that is not there is refused", () => {
    expect(() => truthIn("side").of("no-such-checkpoint")).toThrow(RangeError);
  });
});

describe("the low-pass of the truth", () => {
  const swing = (hz: number) => Array.from({ length: 4001 }, (_, i) => Math.sin((2 * Math.PI * hz * i) / 2000));
  test.each([[10, 10, Math.SQRT1_2], [20, 20, Math.SQRT1_2], [1, 20, 1], [200, 20, 0]])("lets a swing of %f Hz through a cut-off of %f Hz with gain %f, without delay", (hz, cutOff, gain) => {
    const [before, after] = [swing(hz), lowPassed(swing(hz), 1 / 2000, cutOff)];
    for (let i = 1500; i < 2500; i++) expect(Math.abs((after[i] ?? NaN) - gain * (before[i] ?? NaN))).toBeLessThan(0.004);
  });

  test("keeps a straight line as it is, to its ends", () => {
    const line = Array.from({ length: 900 }, (_, i) => 3 - 0.2 * i);
    lowPassed(line, 1 / 2000, 10).forEach((value, i) => expect(value).toBeCloseTo(line[i] ?? NaN, 1));
  });
});
