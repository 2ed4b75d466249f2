import { percentile95 } from "./plane";
import { midhip, timesBetween, type SeenSwing } from "./seen-swing";
import { atLimit, cosineOf, none, reads, type TruthOf } from "./true-reading";
import { filteredUpToContact } from "./filtered-paths";

interface Sampled {
  readonly times: readonly number[];
  readonly values: readonly number[];
}

const sampled = (swing: SeenSwing, from: number, to: number, of: (t: number) => number): Sampled => {
  const times = timesBetween(swing, from, to);
  return { times, values: times.map(of) };
};

/** The first time at which a row is above a limit, between its samples by a straight line; null when it never is. */
function firstAbove({ times, values }: Sampled, limit: number): number | null {
  const after = values.findIndex((value) => value > limit);
  if (after < 0) return null;
  const [t1, y1] = [times[after] ?? NaN, values[after] ?? NaN];
  const [t0, y0] = [times[after - 1], values[after - 1]];
  return t0 === undefined || y0 === undefined ? t1 : t0 + ((t1 - t0) * (limit - y0)) / (y1 - y0);
}

const BARREL_ABOVE = "the barrel is above the hands: the wrists' heights then follow the bat, not the roll";

/** Times at which something crosses a limit or is largest. */
export const CROSSINGS = {
  "wrist-roll-time": (swing, { torso }) => {
    const contact = swing.at(0);
    if (contact("tip").v > contact("knob").v) return none(BARREL_ABOVE);
    const over = sampled(swing, -0.03, 0.3, (t) => swing.at(t)("wr_b").v - swing.at(t)("wr_f").v);
    const crossing = firstAbove(over, 0.04 * torso());
    return crossing === null ? atLimit(0.3) : reads(crossing);
  },
  "chest-open-lead": (swing) => {
    const width = sampled(swing, swing.events.load, 0, (t) => Math.abs(swing.at(t)("sh_f").h - swing.at(t)("sh_b").h));
    const limit = cosineOf(30) * percentile95(width.values);
    const widest = width.values.indexOf(Math.max(...width.values));
    const rest = { times: width.times.slice(widest), values: width.values.slice(widest).map((value) => -value) };
    const open = firstAbove(rest, -limit);
    return open === null ? none("the chest is not yet 30 degrees open at contact") : reads(-open);
  },
  "back-foot-light-lead": (swing, { footFromTorso, restingRise }) => {
    const rest = restingRise("heel_b", "toe_b");
    const lift = (t: number) => (swing.at(t)("heel_b").v - swing.at(t)("toe_b").v - rest) / footFromTorso();
    if (lift(0) > 0.3) {
      const before = sampled(swing, swing.events.stance, 0, lift);
      const backward = { times: [...before.times].reverse(), values: [...before.values].reverse().map((value) => -value) };
      return reads(-(firstAbove(backward, -0.3) ?? swing.events.stance));
    }
    const light = firstAbove(sampled(swing, 0, 0.1, lift), 0.3);
    return light === null ? atLimit(-0.1) : reads(-light);
  },
  "shift-in-ball-flight": (swing, { torso }) => {
    const { releaseSeconds: release, events } = swing;
    if (release === null) return none("off a tee there is no flight");
    const { times, rows } = filteredUpToContact(swing, 10, (p) => [midhip(p).h]);
    const u = rows[0] ?? [];
    let [fastest, when] = [-Infinity, NaN];
    for (let i = 1; i < u.length; i++) {
      const [from, to] = [times[i - 1] ?? NaN, times[i] ?? NaN];
      const [speed, time] = [((u[i] ?? NaN) - (u[i - 1] ?? NaN)) / (to - from), (from + to) / 2];
      if (time >= events.load && speed > fastest) [fastest, when] = [speed, time];
    }
    return fastest / torso() < 0.4 ? none("no clear forward move to time") : reads((when - release) / -release);
  },
} as const satisfies Record<string, TruthOf>;
