import { describe, expect, it } from "vitest";
import { angleDeg, atan2Deg, unwrapDeg } from "@/lib/measure/angles";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { estimate } from "@/lib/measure/estimate";
import { framePeriod, frameQuantisationSd } from "@/lib/measure/event-times";
import { expression } from "@/lib/measure/formula";
import { readCheckpoint } from "@/lib/measure/read-checkpoint";
import type { Sample } from "@/lib/measure/sample";
import { centralDifference, secondDifference } from "@/lib/measure/signals/central-difference";
import { swingPositionOf } from "@/lib/measure/swing-coordinates";
import { filmed } from "@/lib/measure/swing.fixture";
import checkpoints from "@/seed/library/checkpoints.json";
import { cases } from "./measure.json";

const picture = { view: "side", side: "right", mirrored: false } as const;
const place = ([x, y]: readonly number[]) => swingPositionOf({ x: x ?? NaN, y: y ?? NaN }, picture);
const definition = (id: string) => (checkpoints.checkpoints as unknown as CheckpointDefinition[]).find((one) => one.id === id)!;

/** A sample of points that each carry the same noise on both axes. */
function sampleOf(places: Readonly<Record<string, readonly [number, number]>>, sd: number): Sample {
  const list = Object.entries(places);
  return {
    inputs: list.map(([, [h, v]], frame) => ({ point: "tip", frame, h, v, sd })),
    places: list.map(([name], input) => ({ name, moment: [{ event: "contact", weight: 1 }], terms: [{ input, weight: 1 }], speed: { h: 0, v: 0 }, bend: null })),
    lengths: [], resting: [], events: [], window: null,
  };
}

describe("T6.5 angles", () => {
  const { expected, tolerance } = cases["T6.5"];
  it("the knee's included angle is the published one", () => {
    const { hip, knee, ankle, included_deg: angle } = expected.knee_angle_px;
    expect(Math.abs(angleDeg(place(hip), place(knee), place(ankle)) - angle)).toBeLessThan(tolerance);
  });
  it("the trunk's lean is the published one, counted toward the catcher", () => {
    const { hip_mid: hip, shoulder_mid: shoulder } = expected.trunk_lean;
    const fromPitcher = expected.trunk_lean["lean_from_vertical_deg(+ toward +x)"];
    const [h, s] = [place(hip), place(shoulder)];
    const shot = filmed(() => ({ hip_f: [h.h + 9, h.v], hip_b: [h.h - 9, h.v], sh_f: [s.h + 9, s.v], sh_b: [s.h - 9, s.v] }));
    const reading = readCheckpoint(definition("trunk-lean-at-contact"), shot.clip, shot.swing);
    expect(Math.abs((reading.value ?? NaN) + fromPitcher)).toBeLessThan(tolerance);
  });
  it("the bat's direction is the published one", () => {
    const { knob, tip, "angle_from_+x_ccw_up": angle } = expected.bat_angle;
    const [from, to] = [place(knob), place(tip)];
    expect(Math.abs(atan2Deg(to.v - from.v, to.h - from.h) - angle)).toBeLessThan(tolerance);
  });
  it("angles go on past half a turn", () => {
    expect(unwrapDeg(expected.unwrap.in)).toEqual(expected.unwrap.out);
  });
});

describe("T6.10 time error of frames", () => {
  const { expected, tolerance } = cases["T6.10"];
  it.each(expected)("at $fps frames a second one event and an interval have the published SD", ({ fps, frame_ms, single_sd_ms, interval_sd_ms }) => {
    const period = framePeriod([0, 1 / fps, 2 / fps, 3 / fps]);
    expect(Math.abs(period * 1000 - frame_ms)).toBeLessThan(tolerance);
    expect(Math.abs(frameQuantisationSd(period) * 1000 - single_sd_ms)).toBeLessThan(tolerance);
    const mark = (seconds: number) => ({ seconds, sdSeconds: 0, source: "placed" as const, framePeriodSeconds: period });
    const shot = filmed(() => ({}), { fps, swing: { events: { plant: mark(-0.15), contact: mark(0) } } });
    const reading = readCheckpoint(definition("plant-to-contact-time"), shot.clip, shot.swing);
    expect(Math.abs((reading.sd ?? NaN) * 1000 - interval_sd_ms)).toBeLessThan(tolerance);
  });
});

describe("T6.13 speed and turn between three frames", () => {
  const { expected, tolerance } = cases["T6.13"];
  const { frames_px: frames, fps, px_per_m: scale, v_xy: speeds, speed_mps: speed, vertical_path_angle_deg: path } = expected.tip_speed;
  it("the tip's speed and the angle of its path are the published ones", () => {
    const places = frames.map(place);
    const times = frames.map((_, i) => i / fps);
    const [u, v] = (["h", "v"] as const).map((axis) => (centralDifference(places.map((one) => one[axis]), times)[1] ?? NaN) / scale) as [number, number];
    expect(Math.abs(u - (speeds[0] ?? NaN))).toBeLessThan(tolerance);
    expect(Math.abs(v + (speeds[1] ?? NaN))).toBeLessThan(tolerance);
    expect(Math.abs(Math.hypot(u, v) - speed)).toBeLessThan(tolerance);
    expect(Math.abs(atan2Deg(v, u) - path)).toBeLessThan(tolerance);
  });
  it("the bat's rate of turn and its change are the published ones", () => {
    const { theta, fps: rate, omega_mid: turn, alpha_mid: change } = expected.ang_vel;
    const times = theta.map((_, i) => i / rate);
    expect(Math.abs((centralDifference(theta, times)[1] ?? NaN) / turn - 1)).toBeLessThan(tolerance);
    expect(Math.abs((secondDifference(theta, times)[1] ?? NaN) / change - 1)).toBeLessThan(tolerance);
  });
});

describe("T6.12 noise carried through", () => {
  const { expected, tolerance } = cases["T6.12"];
  const { L1, L2, theta, sigma_m: sigma, sigma_deg: sd } = expected.joint_angle_noise;
  const bend = (theta * Math.PI) / 180;
  const joint = sampleOf({ a: [L1, 0], b: [0, 0], c: [L2 * Math.cos(bend), L2 * Math.sin(bend)] }, sigma);
  const reads = { a: ["hip_f", "contact"], b: ["kn_f", "contact"], c: ["an_f", "contact"] } as const;
  const angle = expression({ reads, value: ({ a, b, c }) => angleDeg(a, b, c) });

  it("a joint's angle has the published SD by first-order propagation", () => {
    expect(Math.abs((estimate("plain", angle, joint, { draws: 400, seed: "case" })?.sd ?? NaN) - sd)).toBeLessThan(tolerance);
  });
  it("and by draws, within their own error", () => {
    const drawn = estimate("folded", angle, joint, { draws: 20000, seed: "case" })?.sd ?? NaN;
    expect(Math.abs(drawn / expected.joint_angle_noise.mc_sd - 1)).toBeLessThan(0.02);
  });
  it("a segment's direction has the published SD", () => {
    const { L, sigma: noise, sigma_deg: published } = expected.segment_dir_noise;
    const direction = expression({ reads: { a: reads.a, b: reads.b }, value: ({ a, b }) => atan2Deg(b.v - a.v, b.h - a.h) });
    expect(Math.abs((estimate("plain", direction, sampleOf({ a: [0, 0], b: [0.3, Math.sqrt(L ** 2 - 0.09)] }, noise), { draws: 400, seed: "case" })?.sd ?? NaN) - published)).toBeLessThan(tolerance);
  });
  it.each(expected.vel_noise)("speed and acceleration from differences at $fps frames a second have the published SD", ({ sigma_mm, fps, sigma_v_mps, sigma_a }) => {
    const three = sampleOf({ a: [0, 0], b: [0.1, 0], c: [0.2, 0] }, sigma_mm / 1000);
    const speed = expression({ reads, value: ({ a, c }) => ((c.h - a.h) * fps) / 2 });
    const acceleration = expression({ reads, value: ({ a, b, c }) => (a.h - 2 * b.h + c.h) * fps ** 2 });
    expect(Math.abs((estimate("plain", speed, three, { draws: 400, seed: "case" })?.sd ?? NaN) / sigma_v_mps - 1)).toBeLessThan(tolerance);
    expect(Math.abs((estimate("plain", acceleration, three, { draws: 400, seed: "case" })?.sd ?? NaN) / sigma_a - 1)).toBeLessThan(tolerance);
  });
});
