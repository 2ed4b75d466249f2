import type { PointId } from "../points";
import { apart, arcsineDeg, medianOf, percentile95 } from "./plane";
import { midhip, midshoulder, type Moment, type SeenSwing } from "./seen-swing";

/** Exact lengths in pixels of one view; each is worked out when it is asked for. Conventions `derived`, without noise. */
export interface BodyScales {
  readonly torso: () => number;
  /** A foot that points at the camera of the side view. */
  readonly footFromTorso: () => number;
  readonly backFoot: () => number;
  readonly height: () => number;
  readonly shoulderWidth: () => number;
  readonly hipWidth: () => number;
  readonly upperArm: () => number;
  readonly forearm: () => number;
  readonly bat: () => number;
  readonly earSpan: () => number;
  /** Median of v(a) - v(b) over the stance. */
  readonly restingRise: (a: PointId, b: PointId) => number;
  /** Turn of the shoulders or hips in degrees as front and rear views show it: 0 = square to the plate, + = open. */
  readonly shoulderTurnDeg: (moment: Moment) => number;
  readonly hipTurnDeg: (moment: Moment) => number;
}

const STANCE_SECONDS = 0.25;
const SLACK = 1e-9;

/** The lengths of a swing as its camera sees it. */
export function bodyScales({ at, clipTimes, events }: SeenSwing): BodyScales {
  const still = kept(() => clipTimes.filter((t) => t >= events.stance - STANCE_SECONDS - SLACK && t <= events.stance + SLACK).map(at));
  const swing = kept(() => clipTimes.filter((t) => t >= events.stance - SLACK).map(at));
  const longest = (length: (p: Moment) => number) => kept(() => percentile95(swing().map(length)));
  const span = (a: PointId, b: PointId) => (p: Moment) => apart(p(a), p(b));
  const width = (a: PointId, b: PointId) => (p: Moment) => Math.abs(p(a).h - p(b).h);
  const torso = kept(() => medianOf(still().map((p) => apart(midshoulder(p), midhip(p)))));
  const shoulderWidth = longest(width("sh_b", "sh_f"));
  const hipWidth = longest(width("hip_b", "hip_f"));
  return {
    torso,
    footFromTorso: () => 0.52 * torso(),
    backFoot: kept(() => medianOf(still().map(span("heel_b", "toe_b")))),
    height: longest((p) => 2.04 * (apart(p("hip_f"), p("kn_f")) + apart(p("kn_f"), p("an_f")))),
    shoulderWidth,
    hipWidth,
    upperArm: longest(span("el_b", "sh_b")),
    forearm: longest(span("wr_b", "el_b")),
    bat: longest(span("tip", "knob")),
    earSpan: longest(span("ear_f", "ear_b")),
    restingRise: (a, b) => medianOf(still().map((p) => p(a).v - p(b).v)),
    shoulderTurnDeg: (p) => arcsineDeg((p("sh_b").h - p("sh_f").h) / shoulderWidth()),
    hipTurnDeg: (p) => arcsineDeg((p("hip_b").h - p("hip_f").h) / hipWidth()),
  };
}

/** Works a value out once. */
function kept<T>(make: () => T): () => T {
  let value: { readonly is: T } | null = null;
  return () => (value ??= { is: make() }).is;
}
