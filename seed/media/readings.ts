import type { PicturePoint } from "./camera";
import type { SwingEvents } from "./events";
import type { PointId } from "./points";

/** Picture positions of all points. */
export type Projected = Readonly<Record<PointId, PicturePoint>>;

/** What a side-view reading is worth when nothing is uncertain, by the checkpoint's id. Lengths in torso lengths, angles in degrees. */
export type TrueReadings = Readonly<Record<TrueReadingId, number>>;

export const TRUE_READING_IDS = [
  "load-hip-shift", "hip-travel", "back-foot-release", "front-knee-firming", "shoulder-behind-knee", "front-side-stack",
  "top-hand-hold", "hands-back-at-plant", "lead-arm-bend-at-plant", "trunk-lean-at-contact", "trunk-shortening", "contact-depth",
  "barrel-catch-up", "plant-to-contact-time", "launch-to-contact-time",
] as const;
export type TrueReadingId = (typeof TRUE_READING_IDS)[number];

/** Middle value of a list. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? Number.NaN;
  return (upper + lower) / 2;
}

/** 95th percentile, linear between order statistics. */
export function percentile95(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const rank = 0.95 * (sorted.length - 1);
  const low = sorted[Math.floor(rank)] ?? Number.NaN;
  const high = sorted[Math.ceil(rank)] ?? Number.NaN;
  return low + (high - low) * (rank - Math.floor(rank));
}

/** Positions toward the pitcher (u) and up (v) in pixels for a side view: `s` is 1 for a right-handed, -1 for a left-handed picture. */
export function sideAxes(points: Projected, s: 1 | -1): (id: PointId) => { u: number; v: number } {
  return (id) => ({ u: s * points[id].x, v: -points[id].y });
}

type Flat = { readonly u: number; readonly v: number };
const midway = (a: Flat, b: Flat): Flat => ({ u: (a.u + b.u) / 2, v: (a.v + b.v) / 2 });
const apart = (a: Flat, b: Flat): number => Math.hypot(a.u - b.u, a.v - b.v);

/** Angle at b in degrees, 0 to 180. */
function cornerDeg(a: Flat, b: Flat, c: Flat): number {
  const [au, av, cu, cv] = [a.u - b.u, a.v - b.v, c.u - b.u, c.v - b.v];
  return (Math.atan2(Math.abs(au * cv - av * cu), au * cu + av * cv) * 180) / Math.PI;
}

/** Inputs of the true readings: the projected points at any time, the frames' times, the events. */
export interface ReadingInput {
  readonly at: (timeSeconds: number) => Projected;
  readonly frameTimes: readonly number[];
  readonly events: SwingEvents;
  readonly s: 1 | -1;
}

/** The side view's readings from exact points at exact event times. They share no code with what is tested against them. */
export function trueReadings({ at, frameTimes, events, s }: ReadingInput): TrueReadings {
  const stanceFrames = frameTimes.filter((t) => t > events.stance - 0.25 && t <= events.stance).map((t) => sideAxes(at(t), s));
  const clip = frameTimes.filter((t) => t >= events.stance).map((t) => sideAxes(at(t), s));
  const hips = (p: (id: PointId) => Flat): Flat => midway(p("hip_f"), p("hip_b"));
  const shoulders = (p: (id: PointId) => Flat): Flat => midway(p("sh_f"), p("sh_b"));
  const torso = medianOf(stanceFrames.map((p) => apart(shoulders(p), hips(p))));
  const bat = percentile95(clip.map((p) => apart(p("tip"), p("knob"))));
  const heelOverToe = (p: (id: PointId) => Flat): number => p("heel_b").v - p("toe_b").v;
  const knee = (p: (id: PointId) => Flat): number => cornerDeg(p("hip_f"), p("kn_f"), p("an_f"));
  const [stance, load, plant, launch, contact] = [events.stance, events.load, events.plant, events.launch, 0].map((t) => sideAxes(at(t), s)) as [
    (id: PointId) => Flat, (id: PointId) => Flat, (id: PointId) => Flat, (id: PointId) => Flat, (id: PointId) => Flat,
  ];
  const sweet = midwayAt(contact("tip"), contact("knob"), 0.18);
  return {
    "load-hip-shift": (hips(load).u - hips(stance).u) / torso,
    "hip-travel": (hips(contact).u - plant("an_b").u) / (plant("an_f").u - plant("an_b").u),
    "back-foot-release": (heelOverToe(contact) - medianOf(stanceFrames.map(heelOverToe))) / (0.52 * torso),
    "front-knee-firming": knee(contact) - knee(plant),
    "shoulder-behind-knee": (plant("kn_f").u - plant("sh_f").u) / torso,
    "front-side-stack": cornerDeg(contact("an_f"), hips(contact), shoulders(contact)),
    "top-hand-hold": (apart(launch("wr_b"), launch("sh_b")) - apart(load("wr_b"), load("sh_b"))) / torso,
    "hands-back-at-plant": (midway(plant("wr_f"), plant("wr_b")).u - plant("sh_b").u) / torso,
    "lead-arm-bend-at-plant": cornerDeg(plant("sh_f"), plant("el_f"), plant("wr_f")),
    "trunk-lean-at-contact":
      (Math.atan2(hips(contact).u - shoulders(contact).u, shoulders(contact).v - hips(contact).v) * 180) / Math.PI,
    "trunk-shortening": apart(shoulders(contact), hips(contact)) / apart(shoulders(plant), hips(plant)),
    "contact-depth": (sweet.u - contact("an_f").u) / torso,
    "barrel-catch-up": (contact("tip").u - contact("knob").u) / bat,
    "plant-to-contact-time": -events.plant,
    "launch-to-contact-time": -events.launch,
  };
}

function midwayAt(a: Flat, b: Flat, k: number): Flat {
  return { u: a.u + k * (b.u - a.u), v: a.v + k * (b.v - a.v) };
}
