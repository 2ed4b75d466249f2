import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bodyAt, mixedUp } from "./body.fixture";
import { exchangedOn, frontAndBack, toldSides, type HitterFrame } from "./front-and-back";
import type { PairName } from "./seen-body";

const SIDE = { view: "side", side: "right", mirrored: false } as const;

describe("front and back from left and right", () => {
  test("a right-handed hitter's front is the left side of the body, a left-handed one's the right; a mirrored file turns it round, once", () => {
    const body = bodyAt(0, [500, 300]);
    const frontKnee = (how: { side: "right" | "left"; mirrored: boolean }) => toldSides(body, { view: "side", ...how }).kn_f?.x;
    expect(frontKnee({ side: "right", mirrored: false })).toBe(490);
    expect(frontKnee({ side: "left", mirrored: false })).toBe(510);
    expect(frontKnee({ side: "right", mirrored: true })).toBe(510);
    expect(frontKnee({ side: "left", mirrored: true })).toBe(490);
  });

  test("a joint that the model does not give is no point", () => {
    expect(toldSides({ joints: [] }, SIDE)).toEqual({});
  });
});

/** Legs 80 px apart, the front foot on the pitcher's side: right of the back one for a right-hander in the side view. */
const hitterAt = (x: number) => bodyAt(0, [x, 300], {
  sh: { left: [x + 20, 200], right: [x - 20, 200] }, hip: { left: [x + 15, 300], right: [x - 15, 300] }, kn: { left: [x + 40, 350], right: [x - 40, 350] },
  an: { left: [x + 45, 400], right: [x - 45, 400] }, heel: { left: [x + 44, 405], right: [x - 44, 405] }, toe: { left: [x + 46, 410], right: [x - 46, 410] },
});
const LEGS: readonly PairName[] = ["kn", "an", "heel", "toe"];

const swing = (wrongOn: readonly number[], pairs: readonly PairName[]): HitterFrame[] =>
  Array.from({ length: 12 }, (_, i) => ({ frameIndex: i, seconds: -0.4 + i * 0.04, body: wrongOn.includes(i) ? mixedUp(hitterAt(500 + i), pairs) : hitterAt(500 + i) }));

describe("sides that the model exchanged", () => {
  test("on some frames of a swing are put right, and nothing else is touched", () => {
    const right = frontAndBack(swing([], LEGS), SIDE);
    const mended = frontAndBack(swing([4, 5, 9], LEGS), SIDE);
    expect(mended.map(({ points }) => points)).toEqual(right.map(({ points }) => points));
    expect(mended.flatMap(({ frameIndex, exchanged }) => exchanged.map((group) => `${frameIndex} ${group}`))).toEqual(["4 legs", "5 legs", "9 legs"]);
    expect(right.every(({ exchanged }) => exchanged.length === 0)).toBe(true);
  });

  test("on every frame are put right where the view tells the order: the front foot is the pitcher's side's", () => {
    const all = Array.from({ length: 12 }, (_, i) => i);
    const mended = frontAndBack(swing(all, [...LEGS, "hip", "sh"]), SIDE);
    expect(mended.map(({ points }) => points.an_f?.x)).toEqual(all.map((i) => 545 + i));
    expect(mended.map(({ points }) => points.hip_f?.x)).toEqual(all.map((i) => 515 + i));
    expect(mended[0]?.exchanged).toEqual(["shoulders", "hips", "legs"]);
  });

  test("in a mirrored film of the same swing the order runs the other way, and nothing is exchanged", () => {
    const mirrored = swing([], LEGS).map((it) => ({ ...it, body: { joints: mixedUp({ body: 0, presence: 1, joints: it.body.joints }, [...LEGS, "hip", "sh", "el", "wr", "ear"]).joints.map((joint) => ({ ...joint, x: 1280 - joint.x })) } }));
    const told = frontAndBack(mirrored, { ...SIDE, mirrored: true });
    expect(told.every(({ exchanged }) => exchanged.length === 0)).toBe(true);
    expect(told[0]?.points.an_f?.x).toBe(1280 - 545);
  });

  test("from behind, once the trunk has turned open, the front shoulder is the one away from the plate", () => {
    // The plate lies to the right of a right-handed hitter seen from behind.
    const open = (isRight: boolean): HitterFrame[] =>
      [0, 1, 2].map((i) => ({ frameIndex: i, seconds: i * 0.02, body: bodyAt(0, [500, 300], { sh: { left: [isRight ? 470 : 530, 200], right: [isRight ? 530 : 470, 200] } }) }));
    const how = { ...SIDE, view: "rear" } as const;
    expect(frontAndBack(open(true), how)[0]?.exchanged).not.toContain("shoulders");
    expect(frontAndBack(open(false), how)[0]?.exchanged).toContain("shoulders");
    expect(frontAndBack(open(false), how)[0]?.points.sh_f?.x).toBe(470);
  });
});

describe("the cheapest way through the frames", () => {
  const frame = (x: number, lean: number) => ({ told: { kn_f: { x, y: 0, confidence: 1 }, kn_b: { x: -x, y: 0, confidence: 1 } }, torsoPx: 100, lean });

  test("by hand: two frames that lean right by 20 px and one between that leans wrong", () => {
    // Exchanged in the middle costs 0.02 − 0.2, two jumps of 0; as it was costs 0.2 and two jumps of 2 × 0.4.
    expect(exchangedOn(["kn"], [frame(20, 20), frame(-20, -20), frame(20, 20)])).toEqual([false, true, false]);
  });

  test("no frames are none, and without torso or places nothing is exchanged", () => {
    expect(exchangedOn(["kn"], [])).toEqual([]);
    expect(exchangedOn(["kn"], [{ told: {}, torsoPx: NaN, lean: NaN }, { told: {}, torsoPx: 0, lean: 0 }])).toEqual([false, false]);
  });

  test("is no dearer than any other way, tried out one by one", () => {
    const any = fc.array(fc.record({ x: fc.integer({ min: -60, max: 60 }), lean: fc.integer({ min: -80, max: 80 }) }), { minLength: 1, maxLength: 6 });
    const costOf = (frames: readonly ReturnType<typeof frame>[], way: readonly boolean[]) =>
      frames.reduce((sum, it, i) => {
        const lean = Math.max(-0.5, Math.min(0.5, it.lean / 100));
        const own = way[i] ? 0.02 + lean : -lean;
        const before = frames[i - 1];
        if (!before) return sum + own;
        const sign = way[i] === way[i - 1] ? 1 : -1;
        return sum + own + 2 * Math.min(1, Math.abs(before.told.kn_f.x - sign * it.told.kn_f.x) / 100);
      }, 0);
    fc.assert(fc.property(any, (given) => {
      const frames = given.map(({ x, lean }) => frame(x, lean));
      const chosen = costOf(frames, exchangedOn(["kn"], frames));
      for (let ways = 0; ways < 2 ** frames.length; ways++) expect(chosen).toBeLessThanOrEqual(costOf(frames, frames.map((_, i) => Boolean((ways >> i) & 1))) + 1e-9);
    }));
  });
});
