import type { SwingEvents } from "../events";
import type { PointId } from "../points";
import type { View } from "../spec";
import { between, type Flat } from "./plane";

/** All points at one moment, in swing coordinates of the view. */
export type Moment = (point: PointId) => Flat;

/** A swing as one camera sees it, without any doubt: what true readings are made from. */
export interface SeenSwing {
  readonly view: View;
  readonly events: SwingEvents;
  /** Release of the pitch in seconds from contact; null off a tee. */
  readonly releaseSeconds: number | null;
  /** All points at any time in seconds from contact. */
  readonly at: (timeSeconds: number) => Moment;
  /** Times over which body lengths are taken, from the clip's first frame to its last, evenly spaced. */
  readonly clipTimes: readonly number[];
  /** Steps in which windows are looked at, seconds. */
  readonly stepSeconds: number;
}

/** +1 or -1: what the picture's x counts toward the view's own axis, in a file that is not mirrored. */
export function pictureSign(view: View, side: "right" | "left"): 1 | -1 {
  return (view === "front") === (side === "left") ? 1 : -1;
}

export const midhip = (p: Moment): Flat => between(p("hip_f"), p("hip_b"));
export const midshoulder = (p: Moment): Flat => between(p("sh_f"), p("sh_b"));
export const hands = (p: Moment): Flat => between(p("wr_f"), p("wr_b"));
/** The bat's sweet spot. */
export const sweetSpot = (p: Moment): Flat => between(p("tip"), p("knob"), 0.18);

/** Times from one moment to another in equal steps, both ends among them; none when the window ends before it starts. */
export function timesBetween({ stepSeconds }: Pick<SeenSwing, "stepSeconds">, from: number, to: number): readonly number[] {
  if (!(to >= from)) return [];
  const count = Math.max(1, Math.ceil((to - from) / stepSeconds));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}
