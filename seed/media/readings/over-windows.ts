import { cornerDeg } from "./plane";
import { hands, midhip, midshoulder, timesBetween, type Moment, type SeenSwing } from "./seen-swing";
import { none, reads, type TruthOf } from "./true-reading";

const FURTHEST_TURN_DEG = 70;

function largest(swing: SeenSwing, from: number, to: number, of: (p: Moment) => number): number {
  return timesBetween(swing, from, to).reduce((most, t) => Math.max(most, of(swing.at(t))), -Infinity);
}

/** The largest or smallest value over a window. */
export const WINDOW_EXTREMES = {
  "back-knee-inside": (swing, { torso }) =>
    reads(-largest(swing, swing.events.stance, swing.events.plant, (p) => p("an_b").h - p("kn_b").h) / torso()),
  "front-knee-behind-foot": (swing, { torso }) => reads(-largest(swing, swing.events.plant, 0, (p) => p("kn_f").h - p("an_f").h) / torso()),
  "finish-balance": (swing, { torso }) => {
    const { finish } = swing.events;
    if ((swing.clipTimes.at(-1) ?? NaN) - finish < 0.5) return none("cut off");
    const out = largest(swing, finish, finish + 0.5, (p) => Math.max(midhip(p).h - p("an_f").h, p("an_b").h - midhip(p).h));
    return reads(out / torso());
  },
  "arms-extension": (swing) =>
    reads(largest(swing, 0, 0.1, (p) => Math.min(cornerDeg(p("sh_f"), p("el_f"), p("wr_f")), cornerDeg(p("sh_b"), p("el_b"), p("wr_b"))))),
  "back-elbow-rise": (swing, { upperArm }) => {
    const { stance, load, plant } = swing.events;
    const over = (p: Moment) => (p("el_b").v - p("sh_b").v) / upperArm();
    const start = over(swing.at(stance));
    return start > -0.25 ? none("the elbow starts high: nothing to lift") : reads(largest(swing, load, plant, over) - start);
  },
  "hands-cast-width": (swing, { upperArm, forearm }) => {
    const { launch } = swing.events;
    return reads(largest(swing, launch, 0.6 * launch, (p) => hands(p).h - midshoulder(p).h) / (upperArm() + forearm()));
  },
  /** The library takes the median of the three largest frames; as their interval goes to 0 that is the largest value. */
  "back-elbow-lead": (swing, { forearm }) => {
    const { launch } = swing.events;
    return reads(largest(swing, launch, 0.5 * launch, (p) => p("el_b").h - hands(p).h) / forearm());
  },
  "hip-shoulder-separation": (swing, { hipTurnDeg, shoulderTurnDeg }) => {
    const { plant, launch } = swing.events;
    const moments = timesBetween(swing, Math.min(plant, launch), launch + 0.03).map(swing.at);
    const turns = moments.map((p) => [hipTurnDeg(p), shoulderTurnDeg(p)] as const);
    const seen = turns.filter((pair) => pair.every((turn) => Math.abs(turn) <= FURTHEST_TURN_DEG));
    if (seen.length < 0.8 * turns.length) return none("turned too far");
    return reads(Math.max(...seen.map(([hips, shoulders]) => hips - shoulders)));
  },
} as const satisfies Record<string, TruthOf>;
