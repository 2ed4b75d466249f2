import { arccosineDeg, directionDeg } from "./plane";
import { midhip, midshoulder, timesBetween, type Moment } from "./seen-swing";
import { atLimit, none, reads, sineOf, type TruthOf } from "./true-reading";

const FURTHEST_TURN_DEG = 70;
const TURNED_TOO_FAR = "turned too far: beyond 70 degrees the width hardly changes";

/** The elbow from the shoulder. */
const elbowOut = (p: Moment) => ({ h: p("el_b").h - p("sh_b").h, v: p("el_b").v - p("sh_b").v });
/** How far the trunk tips toward the plate, degrees. */
const tipDeg = (p: Moment): number => directionDeg(midshoulder(p).h - midhip(p).h, midshoulder(p).v - midhip(p).v);

/** Front and rear views, read at the moments of events. */
export const ACROSS_INSTANTS = {
  "back-elbow-draw": ({ at, events }, { upperArm, shoulderTurnDeg }) => {
    const [plant, stance] = [at(events.plant), at(events.stance)];
    if (Math.abs(shoulderTurnDeg(plant) - shoulderTurnDeg(stance)) > 15) return none("the shoulders coiled");
    const [now, before] = [elbowOut(plant), elbowOut(stance)];
    if (Math.hypot(now.h - before.h, now.v - before.v) < 3) return none("too small to read");
    return reads((before.h - now.h) / upperArm());
  },
  "stride-direction": ({ at, events }, { backFoot }) => reads((at(events.plant)("an_f").h - at(events.stance)("an_f").h) / backFoot()),
  "front-foot-angle": ({ at, events }, { backFoot }) => {
    const p = at(events.plant);
    return reads(arccosineDeg((p("toe_f").h - p("heel_f").h) / backFoot()));
  },
  "chest-open-at-plant": ({ at, events }, { shoulderTurnDeg }) => {
    const turn = shoulderTurnDeg(at(events.plant));
    return Math.abs(turn) > FURTHEST_TURN_DEG ? none(TURNED_TOO_FAR) : reads(turn);
  },
  "pelvis-open-at-plant": ({ at, events }, { hipTurnDeg }) => {
    const turn = hipTurnDeg(at(events.plant));
    return Math.abs(turn) > FURTHEST_TURN_DEG ? none(TURNED_TOO_FAR) : reads(turn);
  },
  "pelvis-open-at-contact": (swing, { hipTurnDeg, hipWidth }) => {
    const hasReached = timesBetween(swing, swing.events.plant, 0).some((t) => {
      const p = swing.at(t);
      return Math.abs(p("hip_b").h - p("hip_f").h) / hipWidth() >= sineOf(FURTHEST_TURN_DEG);
    });
    return hasReached ? atLimit(FURTHEST_TURN_DEG) : reads(hipTurnDeg(swing.at(0)));
  },
  "trunk-fold-change": ({ at, events }) => reads(tipDeg(at(0)) - tipDeg(at(events.plant))),
  "barrel-below-hands": ({ at }) => {
    const [tip, knob] = [at(0)("tip"), at(0)("knob")];
    return reads(directionDeg(knob.v - tip.v, Math.abs(tip.h - knob.h)));
  },
  "face-to-contact": ({ at }, { earSpan }) => {
    const p = at(0);
    return reads((p("nose").h - (p("ear_f").h + p("ear_b").h) / 2) / earSpan());
  },
  /** The library takes the median of the three frames nearest the middle; as their interval goes to 0 that is the middle itself. */
  "back-foot-spin-lead": ({ at, events }, { backFoot, hipTurnDeg }) => {
    const p = at(events.plant / 2);
    const [heel, toe, foot] = [p("heel_b"), p("toe_b"), backFoot()];
    if ((heel.v - toe.v) / foot > 0.8) return none("the heel is too high");
    const flat = Math.sqrt(Math.max((0.05 * foot) ** 2, foot ** 2 - (heel.v - toe.v) ** 2));
    return reads(arccosineDeg((toe.h - heel.h) / flat) - hipTurnDeg(p));
  },
} as const satisfies Record<string, TruthOf>;
