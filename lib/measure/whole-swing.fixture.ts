import type { ClipInput, EventId, FramePoints, PlacedPoint, Side, SwingEvent, SwingInput, View } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";

/** For tests: a place in space; u toward the pitcher, w toward the plate, v up; a torso is about 100 long. */
type Space = readonly [number, number, number];
/** For tests: where the points of a hitter are in space. */
export type Body = Readonly<Partial<Record<PointId, Space>>>;

/** For tests: how a whole swing is filmed from a view, and what is done to the picture. */
export interface WholeFilming {
  readonly fps?: number;
  readonly side?: Side;
  readonly mirrored?: boolean;
  readonly zoom?: number;
  readonly shift?: readonly [number, number];
  /** Degrees by which the picture is turned. */
  readonly turnDeg?: number;
  readonly source?: PlacedPoint["source"];
  readonly fromSeconds?: number;
  readonly toSeconds?: number;
  readonly clip?: Partial<ClipInput>;
  readonly swing?: Partial<SwingInput>;
}

/** For tests: moments of the whole swing, seconds from contact; all of them lie on frames of 120 a second. */
export const WHOLE_SECONDS = {
  release: -54 / 120, stance: -132 / 120, "first-move": -90 / 120, load: -66 / 120, toe: -27 / 120, plant: -24 / 120, launch: -18 / 120,
  contact: 0, extension: 6 / 120, finish: 36 / 120,
} as const satisfies Record<EventId, number>;

/** For tests: marked events with a common SD. */
export function wholeEvents(sdSeconds = 0.003): Record<EventId, SwingEvent> {
  return Object.fromEntries(Object.entries(WHOLE_SECONDS).map(([id, seconds]) => [id, { seconds, sdSeconds, source: "placed" }])) as Record<EventId, SwingEvent>;
}

/** Goes from 0 to 1 around a time. */
const ramp = (t: number, middle: number, width: number) => 1 / (1 + Math.exp(-(t - middle) / width));
const plus = (a: Space, b: Space, share = 1): Space => [a[0] + share * b[0], a[1] + share * b[1], a[2] + share * b[2]];
const between = (a: Space, b: Space, share: number): Space => plus(a, plus(b, a, -1), share);
const sized = (a: Space, length: number): Space => plus([0, 0, 0], a, length / Math.hypot(...a));
/** Half a width that is turned by `deg` from square to the plate, toward the front. */
const half = (width: number, deg: number): Space => [(width / 2) * Math.cos((deg * Math.PI) / 180), (-width / 2) * Math.sin((deg * Math.PI) / 180), 0];

/** For tests: a hitter in space who loads, strides, turns and finishes smoothly. */
export function wholeHitter(t: number): Body {
  const load = ramp(t, -0.7, 0.03);
  const stride = ramp(t, -0.38, 0.035);
  const drive = ramp(t, -0.12, 0.025);
  const pelvis = -4 + 14 * ramp(t, -0.2, 0.02) + 74 * ramp(t, -0.075, 0.022);
  const chest = -8 - 10 * load + 108 * ramp(t, -0.028, 0.022);
  const swing = ramp(t, -0.035, 0.02);
  const after = ramp(t, 0.13, 0.03);
  const carry = ramp(t, -0.38, 0.06);
  const hips: Space = [-9 * load + 28 * carry + 26 * drive, -4 - 3 * drive, 104 - 3 * stride];
  const midsh = plus(hips, [-4 - 14 * drive, 22 + 3 * drive, 96]);
  const [hip_f, hip_b] = [plus(hips, half(30, pelvis)), plus(hips, half(30, pelvis), -1)];
  const [sh_f, sh_b] = [plus(midsh, half(42, chest)), plus(midsh, half(42, chest), -1)];
  const hands = plus(between(plus(sh_b, [-6 - 8 * load, 4, 4 + 3 * load]), plus(midsh, [24, 42, -38]), swing), [14 * after, -46 * after, 52 * after]);
  const back: Space = sized([-0.35, -0.25, 0.9], 1);
  const flat: Space = sized([0.1, 0.95, -0.38], 1);
  const through: Space = sized([0.75, -0.55, 0.1], 1);
  const bat = sized(between(between(back, flat, ramp(t, -0.045, 0.018)), through, ramp(t, 0.03, 0.02)), 84);
  const open = (8 + 32 * stride + 10 * drive) * (Math.PI / 180);
  const toe: Space = [26 * Math.sin(open), 26 * Math.cos(open), 0];
  const an_f: Space = [22 + 62 * stride, -1 + 4 * stride, 12 + 14 * Math.exp(-(((t + 0.4) / 0.08) ** 2))];
  const spin = 1.1 * ramp(t, -0.05, 0.02);
  const heelUp = 26 * ramp(t, -0.05, 0.015);
  const an_b: Space = [-34 + 9 * drive, 0, 12 + 0.8 * heelUp];
  const heel_f = plus(an_f, plus([0, -3, -8], toe, -0.28));
  const toe_b: Space = [-33 + 3 * drive, 17, 3];
  const heel_b: Space = [toe_b[0] - 26 * Math.sin(spin), toe_b[1] - 26 * Math.cos(spin), 4 + heelUp];
  const head = plus(midsh, [2, 9, 34]);
  return {
    hip_f, hip_b, sh_f, sh_b, wr_f: plus(hands, [1, 0, -2]), wr_b: plus(hands, [-1, 0, 3]),
    el_f: plus(between(sh_f, hands, 0.5), [4, 3, -10 + 6 * swing]), el_b: plus(between(sh_b, hands, 0.5), [-10 + 8 * swing, -9 - 6 * load + 10 * swing, -12]),
    kn_f: plus(between(hip_f, an_f, 0.5), [9 - 7 * drive, 6, 0]), kn_b: plus(between(hip_b, an_b, 0.5), [5 + 12 * drive, 8, -3 * drive]),
    an_f, an_b, heel_f, toe_f: plus(heel_f, toe), heel_b, toe_b,
    nose: plus(head, sized([0.8, 0.6, -0.1], 11)), ear_f: plus(head, [4.2, -5.6, 0]), ear_b: plus(head, [-4.2, 5.6, 0]), helmet: plus(head, [0, 0, 3]),
    knob: plus(hands, [-2, -1, -3]), tip: plus(plus(hands, [-2, -1, -3]), bat),
  };
}

/** For tests: a swing filmed from a square camera far away, every point placed on every frame. */
export function filmedWhole(view: View, filming: WholeFilming = {}, bodyAt: (seconds: number) => Body = wholeHitter): { clip: ClipInput; swing: SwingInput } {
  const { fps = 240, side = "right", mirrored = false, zoom = 1, shift = [900, 700], turnDeg = 0, source = "placed", fromSeconds = -1.4, toSeconds = 0.85 } = filming;
  const first = Math.round(fromSeconds * fps);
  const seconds = Array.from({ length: Math.round((toSeconds - fromSeconds) * fps) + 1 }, (_, i) => (first + i) / fps);
  const sign = [side === "left", view === "front", mirrored].filter(Boolean).length % 2 === 1 ? -1 : 1;
  const turn = (turnDeg * Math.PI) / 180;
  const points: Record<number, FramePoints> = {};
  seconds.forEach((time, frame) => {
    points[frame] = Object.fromEntries(Object.entries(bodyAt(time)).map(([point, [u, w, v]]) => {
      const [x, y] = [sign * (view === "side" ? u : w), -v];
      return [point, { x: shift[0] + zoom * (x * Math.cos(turn) - y * Math.sin(turn)), y: shift[1] + zoom * (x * Math.sin(turn) + y * Math.cos(turn)), source } satisfies PlacedPoint];
    }));
  });
  const clip: ClipInput = {
    view, mirrored, secondsFromContact: seconds, captureFps: fps, cameraOffDeg: 0, cameraMoved: false, cameraZoomed: false, stabilised: false, points, ...filming.clip,
  };
  const swing: SwingInput = { side, swingKind: "power", task: "live", ageYears: 25, releaseSource: "marked", events: wholeEvents(), ...filming.swing };
  return { clip, swing };
}
