import { describe, expect, test } from "vitest";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { chooseHitter } from "@/lib/measure/suggest-points/choose-hitter";
import { middleOf } from "@/lib/measure/suggest-points/seen-body";
import { swingSpec } from "@/seed/media/spec";
import { truthOf } from "@/seed/media/truth";
import { drawFrames, lookAt, suggestForDrawn, type DrawnFrame } from "./drawn-bodies";

/** A few frames of a swing: the stance, the landing, the turn and contact. */
const TIMES = [-0.9, -0.25, -0.15, -0.1, -0.05, 0];

describe("the pose model itself, on drawn swings whose truth is known", () => {
  /*
   * Median and 95 % in px at a torso of 137 px, full model, side view, from a trial on another drawn hitter: hips 5/18, knees 3/8, ankles 6/14, shoulders 11/30,
   * elbows 41/97, wrists 17 to 37/100. On these few frames every joint has to lie within the trial's 95 %, and half of them within twice its median.
   */
  const LIMITS = { hip: [10, 18], kn: [6, 8], an: [12, 14], sh: [22, 30] } as const;

  test("right-handed from the side: hips, knees, ankles and shoulders are where they were found in the trials", async () => {
    const { errors, points, torsoPx } = await suggestForDrawn({ view: "side", side: "right", seed: 3 }, TIMES);
    expect(points).toHaveLength(TIMES.length);
    for (const [joint, [median, most]] of Object.entries(LIMITS)) {
      const far = errors.filter(({ point }) => point.startsWith(`${joint}_`)).map(({ dx, dy }) => Math.hypot(dx, dy) * 137).sort((a, b) => a - b);
      expect(far).toHaveLength(2 * TIMES.length);
      expect(far[far.length >> 1], `${joint}, median at a torso of ${torsoPx.toFixed(0)} px`).toBeLessThan(median);
      expect(far[Math.floor(0.9 * far.length)], `${joint}, all but one`).toBeLessThan(most);
    }
  }, 240_000);

  test("left-handed from behind: front stays front through the turn, and drafts lie within three of the SDs that readings assume", async () => {
    const { errors, points } = await suggestForDrawn({ view: "rear", side: "left", seed: 5 }, TIMES);
    expect(points.length).toBeGreaterThanOrEqual(TIMES.length - 1);
    for (const joint of ["hip", "kn", "an", "sh"]) {
      const sd = STARTER_RULES.noise.suggested[joint] ?? NaN;
      const off = errors.filter(({ point }) => point.startsWith(`${joint}_`)).flatMap(({ dx, dy }) => [dx, dy]);
      expect(off.filter((it) => Math.abs(it) <= 3 * sd).length / off.length, joint).toBeGreaterThan(0.85);
    }
  }, 240_000);

  test("of two people the one who swings is chosen, also when the other stands nearer the middle", async () => {
    const spec = swingSpec({ view: "side", framesPerSecond: 240, widthPx: 640, heightPx: 720, seed: 3 });
    const truth = truthOf(spec);
    const times = [-0.15, -0.1, -0.05, 0];
    const still = drawFrames(swingSpec({ ...spec, seed: 8 }), truth, [-1]).next().value as DrawnFrame;
    // Two pictures side by side: somebody who stands on the left half, the hitter on the right one.
    function* both(): Generator<DrawnFrame> {
      for (const frame of drawFrames(spec, truth, times)) {
        const bytes = new Uint8Array(1280 * 720 * 3);
        for (let y = 0; y < 720; y++) {
          bytes.set(still.bytes.subarray(y * 640 * 3, (y + 1) * 640 * 3), y * 1280 * 3);
          bytes.set(frame.bytes.subarray(y * 640 * 3, (y + 1) * 640 * 3), (y * 1280 + 640) * 3);
        }
        yield { ...frame, bytes };
      }
    }
    const { frames } = await lookAt({ width: 1280, height: 720 }, times, both());
    expect(Math.max(...frames.map(({ bodies }) => bodies.length))).toBe(2);
    const hitter = chooseHitter(frames);
    expect(hitter.size).toBeGreaterThanOrEqual(3);
    for (const body of hitter.values()) expect(middleOf(body, "hip").x).toBeGreaterThan(640);
  }, 240_000);
});
