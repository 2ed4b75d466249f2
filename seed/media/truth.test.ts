import { describe, expect, test, vi } from "vitest";
import checkpointFile from "@/seed/library/checkpoints.json";
import conventionFile from "@/seed/library/conventions.json";
import { hitterOf } from "./skeleton";
import { POINT_IDS } from "./points";
import { sideAxes, TRUE_READING_IDS } from "./readings";
import { BODIES, swingSpec, VIEWS } from "./spec";
import { truthOf } from "./truth";
import { distance } from "./vec";

vi.setConfig({ testTimeout: 30_000 });

interface Band {
  readonly ok: readonly (number | null)[];
}

function okBand(id: string, isYouth: boolean): readonly [number, number] {
  const found = checkpointFile.checkpoints.find((checkpoint) => checkpoint.id === id) as { band: Band; bandYouth?: Band } | undefined;
  const band = (isYouth ? found?.bandYouth : undefined) ?? found?.band;
  if (band === undefined) throw new Error(`no band for ${id}`);
  return [band.ok[0] ?? -Infinity, band.ok[1] ?? Infinity];
}

describe("the truth of a synthetic swing", () => {
  test("names the points of the library's conventions, in their order", () => {
    expect(POINT_IDS).toEqual(conventionFile.conventions.points);
  });

  test("is the same for the same spec and another for another seed", () => {
    const plain = (seed: number) => JSON.stringify(truthOf(swingSpec({ seed, framesPerSecond: 60 })));
    expect(plain(4)).toBe(plain(4));
    expect(plain(4)).not.toBe(plain(5));
  });

  test("reads inside every ok band when no fault is in the swing, for each body, either hand and several hitters", () => {
    for (const body of BODIES) {
      for (const seed of [1, 2, 3, 4]) {
        const side = seed % 2 === 0 ? "left" : "right";
        const { readings } = truthOf(swingSpec({ body, seed, side, framesPerSecond: 60 }));
        for (const id of TRUE_READING_IDS) {
          const [low, high] = okBand(id, body === "child");
          expect(readings?.[id], `${id}, ${body}, seed ${seed}`).toBeGreaterThanOrEqual(low);
          expect(readings?.[id], `${id}, ${body}, seed ${seed}`).toBeLessThanOrEqual(high);
        }
      }
    }
  });

  test("of a left-handed swing is the mirror of the right-handed one: same places, same readings, pictures turned over", () => {
    const [right, left] = (["right", "left"] as const).map((side) => truthOf(swingSpec({ side, framesPerSecond: 60 })));
    for (const id of TRUE_READING_IDS) expect(left!.readings![id]).toBeCloseTo(right!.readings![id], 9);
    const [r, l] = [right!.frames[70]!, left!.frames[70]!];
    for (const id of POINT_IDS) {
      expect(l.points[id].world).toEqual(r.points[id].world);
      expect(l.points[id].picture.x).toBeCloseTo(1280 - r.points[id].picture.x, 6);
      expect(l.points[id].picture.y).toBeCloseTo(r.points[id].picture.y, 6);
    }
  });

  test("has its events in the order of a swing and the hips furthest back at the load", () => {
    for (const body of BODIES) {
      const { events: e, pointsAt } = truthOf(swingSpec({ body, framesPerSecond: 60 }));
      const order = [e.stance, e.load, e.toe, e.plant, e.launch, e.contact, e.extension, e.finish];
      expect([...order].sort((a, b) => a - b)).toEqual(order);
      const hips = (t: number) => sideAxes(pointsAt(t), 1)("hip_f").u + sideAxes(pointsAt(t), 1)("hip_b").u;
      for (let t = e.stance; t <= e.toe; t += 0.01) expect(hips(t)).toBeGreaterThanOrEqual(hips(e.load) - 0.05);
    }
  });

  test("keeps every bone as long as it is, hands on the handle, feet over the ground and knees unlocked", () => {
    for (const body of BODIES) {
      const { size, poseAt } = hitterOf(swingSpec({ body }));
      for (let t = -1.2; t <= 0.6; t += 0.02) {
        const pose = poseAt(t);
        for (const leg of [pose.frontLeg, pose.backLeg]) {
          expect(distance(leg.root, leg.joint)).toBeCloseTo(size.thigh, 6);
          expect(distance(leg.joint, leg.end)).toBeCloseTo(size.shin, 6);
          expect(leg.stretch).toBeLessThan(0.999);
        }
        for (const arm of [pose.frontArm, pose.backArm]) {
          expect(distance(arm.root, arm.joint)).toBeCloseTo(size.upperArm, 6);
          expect(arm.stretch).toBeLessThan(1.005);
        }
        expect(distance(pose.frontArm.end, pose.frontHand)).toBeLessThan(0.08 * size.girth);
        expect(distance(pose.bat.knob, pose.bat.tip)).toBeCloseTo(size.bat, 9);
        for (const point of [pose.frontFoot.heel, pose.frontFoot.toe, pose.backFoot.heel, pose.backFoot.toe]) expect(point[1]).toBeGreaterThan(0.005);
      }
    }
  });

  test("moves without jerks: no joint of the body goes faster than a fast hand", () => {
    const { frames } = truthOf(swingSpec({ framesPerSecond: 120 }));
    for (let i = 1; i < frames.length; i++) {
      for (const id of POINT_IDS) {
        const speed = distance(frames[i]!.points[id].world, frames[i - 1]!.points[id].world) * 120;
        expect(speed, `${id} on frame ${i}`).toBeLessThan(id === "tip" ? 45 : 12);
      }
    }
  });

  test("hides the far ear and shows the near ankle, in each view", () => {
    for (const view of VIEWS) {
      const { frames } = truthOf(swingSpec({ view, framesPerSecond: 60 }));
      const { points } = frames[10]!;
      expect(points.ear_f.isVisible && points.ear_b.isVisible).toBe(false);
      expect(view === "front" ? points.an_f.isVisible : points.an_b.isVisible).toBe(true);
    }
  });

  test("puts the ball on the barrel at contact and on its way to the pitcher after it", () => {
    for (const task of ["tee", "toss"] as const) {
      const { frames, contactFrame, releaseSeconds } = truthOf(swingSpec({ task }));
      const at = frames[contactFrame]!;
      expect(at.timeSeconds).toBe(0);
      const sweet = at.points.tip.world.map((v, i) => v + 0.18 * (at.points.knob.world[i]! - v)) as [number, number, number];
      expect(distance(at.ball!.world, sweet)).toBeCloseTo(0.0675, 3);
      expect(frames[contactFrame + 10]!.ball!.world[0]).toBeGreaterThan(at.ball!.world[0] + 0.5);
      expect(releaseSeconds === null).toBe(task === "tee");
    }
  });
});
