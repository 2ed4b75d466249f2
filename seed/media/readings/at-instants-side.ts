import { apart, arcsineDeg, cornerDeg, directionDeg } from "./plane";
import { hands, midhip, midshoulder, sweetSpot, type Moment } from "./seen-swing";
import { none, reads, type TruthOf } from "./true-reading";

const kneeDeg = (p: Moment): number => cornerDeg(p("hip_f"), p("kn_f"), p("an_f"));
const trunk = (p: Moment): number => apart(midshoulder(p), midhip(p));
const heelOverToe = (p: Moment): number => p("heel_b").v - p("toe_b").v;
const topHandReach = (p: Moment): number => apart(p("wr_b"), p("sh_b"));

/** Side view, read at the moments of events. */
export const SIDE_INSTANTS = {
  "load-hip-shift": ({ at, events }, { torso }) => reads((midhip(at(events.load)).h - midhip(at(events.stance)).h) / torso()),
  "stride-length": ({ at, events }, { height }) => {
    const p = at(events.plant);
    return reads(Math.abs(p("an_f").h - p("an_b").h) / height());
  },
  "hip-travel": ({ at, events }, { torso }) => {
    const plant = at(events.plant);
    const base = plant("an_f").h - plant("an_b").h;
    if (base < 0.5 * torso()) return none("the base is too narrow to share out");
    return reads((midhip(at(0)).h - plant("an_b").h) / base);
  },
  "back-foot-release": ({ at }, { footFromTorso, restingRise }) => reads((heelOverToe(at(0)) - restingRise("heel_b", "toe_b")) / footFromTorso()),
  "front-knee-firming": ({ at, events }) => reads(kneeDeg(at(0)) - kneeDeg(at(events.plant))),
  "shoulder-behind-knee": ({ at, events }, { torso }) => {
    const p = at(events.plant);
    return reads((p("kn_f").h - p("sh_f").h) / torso());
  },
  "front-side-stack": ({ at }) => {
    const p = at(0);
    return reads(cornerDeg(p("an_f"), midhip(p), midshoulder(p)));
  },
  "top-hand-hold": ({ at, events }, { torso }) => reads((topHandReach(at(events.launch)) - topHandReach(at(events.load))) / torso()),
  "hands-back-at-plant": ({ at, events }, { torso }) => {
    const p = at(events.plant);
    return reads((hands(p).h - p("sh_b").h) / torso());
  },
  "lead-arm-bend-at-plant": ({ at, events }) => {
    const p = at(events.plant);
    return reads(cornerDeg(p("sh_f"), p("el_f"), p("wr_f")));
  },
  "trunk-lean-at-contact": ({ at }) => {
    const [hips, chest] = [midhip(at(0)), midshoulder(at(0))];
    return reads(directionDeg(hips.h - chest.h, chest.v - hips.v));
  },
  "trunk-shortening": ({ at, events }) => reads(trunk(at(0)) / trunk(at(events.plant))),
  "head-travel": ({ at, events }, { torso }) => reads((at(0)("helmet").h - at(events.plant)("helmet").h) / torso()),
  "contact-depth": ({ at }, { torso }) => reads((sweetSpot(at(0)).h - at(0)("an_f").h) / torso()),
  "barrel-catch-up": ({ at }, { bat }) => reads((at(0)("tip").h - at(0)("knob").h) / bat()),
  "bat-angle-early": ({ at, events }, { bat }) => {
    const p = at(0.75 * events.launch);
    return reads(arcsineDeg((p("tip").v - p("knob").v) / bat()));
  },
  /** The library fits the last four frames; as their interval goes to 0 that is the direction in which the sweet spot moves. */
  "barrel-climb-angle": ({ at, stepSeconds: h }) => {
    const [now, before, earlier] = [0, -h, -2 * h].map((t) => sweetSpot(at(t)));
    if (!now || !before || !earlier) return none("no bat");
    const slope = (axis: "h" | "v") => 3 * now[axis] - 4 * before[axis] + earlier[axis];
    return reads(directionDeg(slope("v"), slope("h")));
  },
} as const satisfies Record<string, TruthOf>;

