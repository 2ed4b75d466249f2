import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { filmed, hitter } from "@/lib/measure/swing.fixture";
import type { CameraLine } from "./camera-line";
import { combineLines } from "./combine-lines";
import type { PlanePoint } from "./homography";
import { lineWords } from "./line-words";
import { PLATE_CORNERS_M } from "./plate";
import { plateLine } from "./plate-line";
import { turnFromOffset, turnFromWidth } from "./width-turn";
import { widthsLine } from "./widths-line";

const picture = { view: "side", side: "right", mirrored: false, widthPx: 1280 } as const;
/** A level camera a metre high, six metres from the plate, so many degrees off in the side view. */
function corners(offDeg: number, { zoom = 1, shift = 0 }: { zoom?: number; shift?: number } = {}): PlanePoint[] {
  const [s, c] = [Math.sin((offDeg * Math.PI) / 180), Math.cos((offDeg * Math.PI) / 180)];
  return PLATE_CORNERS_M.map(([x, z]): PlanePoint => {
    const [px, pz] = [x - 0.2286, z];
    const depth = 6 - (px * s + pz * c);
    return [640 + shift + (zoom * 1000 * (px * c - pz * s)) / depth, 400 + (zoom * 1000) / depth];
  });
}
const off = (places: readonly PlanePoint[], hitterX: number | null = 640) => plateLine(places, hitterX, picture).line;

describe("the plate's line", () => {
  const angle = fc.double({ min: -30, max: 30, noNaN: true });
  it("is the camera's angle, whatever the order in which the corners were marked", () => {
    fc.assert(
      fc.property(angle, fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 }), (deg, order) => {
        const places = corners(deg);
        expect(off(order.map((i) => places[i]!))?.offDeg).toBeCloseTo(deg, 4);
      }),
      { numRuns: 25 },
    );
  });
  it("a closer picture says the same with less doubt, a shifted one exactly the same", () => {
    fc.assert(
      fc.property(angle, fc.integer({ min: -300, max: 300 }), (deg, shift) => {
        const whole = off(corners(deg))!;
        const closer = off(corners(deg, { zoom: 2 }))!;
        const shifted = off(corners(deg, { shift }), 640 + shift)!;
        expect(closer.offDeg).toBeCloseTo(whole.offDeg, 4);
        expect(closer.sdDeg).toBeLessThan(whole.sdDeg);
        expect(shifted.offDeg).toBeCloseTo(whole.offDeg, 6);
        expect(shifted.sdDeg).toBeCloseTo(whole.sdDeg, 6);
      }),
      { numRuns: 25 },
    );
  });
  it("more noise at the corners and a hitter whose place is not known mean more doubt", () => {
    const sd = (cornerSdPx: number) => plateLine(corners(8), 640, picture, { cornerSdPx }).line?.sdDeg ?? NaN;
    expect(sd(3)).toBeGreaterThan(sd(1.5));
    expect(sd(1.5)).toBeGreaterThan(sd(0.5));
    expect(off(corners(8), null)?.sdDeg).toBeGreaterThan(sd(1.5));
  });
  it("places that make no plate give no angle but a sentence", () => {
    const good = corners(5);
    const bad: PlanePoint[][] = [
      [], good.slice(1), good.map((): PlanePoint => [9, 9]), good.map(([x]): PlanePoint => [x, 400]), good.map(([x, y], i): PlanePoint => [i ? x : NaN, y]),
      good.map(([x, y]): PlanePoint => [640 + (x - 640) / 10, 560 + (y - 560) / 10]), [[100, 100], [200, 100], [240, 190], [150, 260], [60, 190]],
      good.map(([x, y], i): PlanePoint => [x, i === 0 ? y - 60 : y]),
    ];
    for (const places of bad) {
      const { line, reason } = plateLine(places, 640, picture);
      expect([line, typeof reason]).toEqual([null, "string"]);
    }
    expect(() => plateLine(good, 640, picture, { cornerSdPx: 0 })).toThrow(RangeError);
  });
});

describe("the body's line", () => {
  it("without points, view or real time says what is missing", () => {
    for (const clip of [{ points: {} }, { view: null }, { secondsFromContact: null }] as const) {
      const shot = filmed(hitter, { clip });
      expect(widthsLine(shot.clip, shot.swing)).toMatchObject({ line: null, reason: expect.stringMatching(/\w/) as string });
    }
  });
  it("a mirrored file, a left-handed hitter and a shifted picture have the same, a closer one nearly", () => {
    const line = (filming: Parameters<typeof filmed>[1]) => {
      const shot = filmed(hitter, filming);
      return widthsLine(shot.clip, shot.swing).line!;
    };
    const plain = line({});
    for (const filming of [{ mirrored: true }, { side: "left" }, { side: "left", mirrored: true }, { shift: [500, 600] }] as const) {
      expect(line(filming).offDeg).toBeCloseTo(plain.offDeg, 6);
    }
    expect(line({ zoom: 1.7 }).offDeg).toBeCloseTo(plain.offDeg, 1);
  });
});

describe("turns from widths", () => {
  it("a width beyond the whole is said, not clipped, and a turn seen nearly whole is refused", () => {
    expect(turnFromWidth(0.37, 0.36, 0.01, 0)).toMatchObject({ turn: null, isTooSquare: true });
    expect(turnFromWidth(NaN, 0.36, 0.01, 0)).toMatchObject({ turn: null, isTooSquare: false });
    expect(turnFromOffset(0.36, 0.36, 0.01, 0)).toBeNull();
    expect(turnFromOffset(0.1, 0, 0.01, 0)).toBeNull();
    expect(() => turnFromWidth(0.1, 0.3, -1, 0)).toThrow(RangeError);
  });
  it("an offset has the sign of its turn", () => {
    fc.assert(
      fc.property(fc.double({ min: -69, max: 69, noNaN: true }), (deg) => {
        expect(turnFromOffset(0.4 * Math.sin((deg * Math.PI) / 180), 0.4, 0.01, 0.02)?.turnDeg).toBeCloseTo(deg, 6);
      }),
    );
  });
});

describe("plate and body together", () => {
  const line = (offDeg: number, sdDeg: number, more: Partial<CameraLine> = {}): CameraLine => ({ offDeg, sdDeg, isSignKnown: true, source: "plate", ...more });
  it("lie between the two, nearer to the finer, with less doubt than either", () => {
    const both = combineLines(line(8, 1), line(14, 9, { source: "widths" }))!;
    expect(both.line.offDeg).toBeCloseTo(8 + 6 / 82, 9);
    expect(both.line.sdDeg).toBeLessThan(1);
    expect(both).toMatchObject({ areAtOdds: false, line: { source: "both" } });
  });
  it("widths that do not know their side are taken to the plate's", () => {
    expect(combineLines(line(-20, 1), line(25, 8, { isSignKnown: false }))?.line.offDeg).toBeLessThan(-20);
  });
  it("at odds the plate stands and it is said; one alone is itself", () => {
    expect(combineLines(line(0, 1), line(40, 9))).toMatchObject({ areAtOdds: true, line: { offDeg: 0, sdDeg: 1 } });
    expect(combineLines(null, line(3, 9))).toMatchObject({ areAtOdds: false, line: { offDeg: 3 } });
    expect(combineLines(null, null)).toBeNull();
    expect(() => combineLines(line(0, 0), null)).toThrow(RangeError);
  });
});

describe("words for a line", () => {
  it("say whole degrees with their doubt, and the side only where it is known", () => {
    expect(lineWords({ offDeg: 8.3, sdDeg: 3.6, isSignKnown: true }, "side")).toBe("About 8 degrees off, toward the pitcher, give or take 4.");
    expect(lineWords({ offDeg: -12, sdDeg: 1, isSignKnown: true }, "rear")).toBe("About 12 degrees off, toward the hitter's back, give or take 1.");
    expect(lineWords({ offDeg: 5, sdDeg: 9, isSignKnown: true }, "front")).toBe("About 5 degrees off, give or take 9.");
    expect(lineWords({ offDeg: 30, sdDeg: 9, isSignKnown: false }, "front")).toBe("About 30 degrees off, give or take 9.");
    expect(lineWords({ offDeg: 0.3, sdDeg: 0.2, isSignKnown: true }, "side")).toBe("On the line, give or take 1 degree.");
  });
});
