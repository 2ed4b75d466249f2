import { isMinor } from "@/lib/core/age";
import { ADULT_RULES, type AdultRule, type Drill, type DrillPlayer, type GearCatalogue } from "./drill";
import { gearNames, hasSoftBalls, missingGear } from "./gear";

/** The hard limits, in the order in which they are said. A drill that breaks any of them is never offered. */
export const LIMIT_IDS = [
  "paused", "complaint", "age", "level", "under-eight", "adult", "protection", "partner", "gear", "space", "cage", "cause",
  "learned-first", "sport", "slap", "season", "kept",
] as const;
export type LimitId = (typeof LIMIT_IDS)[number];

/** A limit that a drill breaks for a player, and why in one sentence for people. */
export interface BrokenLimit {
  readonly id: LimitId;
  readonly words: string;
}

/** "nearby" (an adult within call) is asked for below this age in years. */
const NEARBY_UNDER_YEARS = 15;
const YOUNGEST_YEARS = 8;
/** Drills that need no swing at a ball and no bat: they stay when swings are paused. */
const isBodyWork = (drill: Drill) => drill.setup === "strength" || drill.setup === "mobility";

const isAdultEnough = (has: AdultRule, needed: AdultRule) => ADULT_RULES.indexOf(has) >= ADULT_RULES.indexOf(needed);

/** The adult rule as it binds at an age: never below what machines, thrown and pitched balls and children under 8 ask. */
function adultNeeded(drill: Drill, years: number): AdultRule {
  if (!isMinor(years)) return "none";
  const isFed = drill.setup === "machine" || drill.gear.includes("machine") || drill.gear.includes("fed-ball");
  const asked: AdultRule[] = [drill.adult];
  if (isFed) asked.push("operates");
  if (drill.setup === "live") asked.push("in-charge");
  if (years < YOUNGEST_YEARS) asked.push("nearby");
  const strictest = asked.reduce((most, rule) => (isAdultEnough(most, rule) ? most : rule));
  return strictest === "nearby" && years >= NEARBY_UNDER_YEARS ? "none" : strictest;
}

const ADULT_WORDS: Readonly<Record<AdultRule, string>> = {
  none: "",
  nearby: "Needs an adult within call.",
  "in-charge": "Needs an adult who runs it.",
  operates: "Needs an adult who works the machine, throws or pitches.",
};

/** Gear that guards somebody: missing, it is said as protection. */
const PROTECTIVE = ["helmet", "face-guard", "eye-protection", "screen", "fine-mesh-screen"];

/** Protection that must be at hand: what the drill lists, and what its balls ask for whatever the list says. */
function protectionNeeded(drill: Drill, years: number): string[] {
  const isHardTowards = drill.hardBalls && (drill.setup === "toss" || drill.setup === "live" || drill.setup === "machine");
  const isFaceGuarded = drill.faceGuardUnderAge !== undefined && years < drill.faceGuardUnderAge;
  const needed = new Set(drill.gear.filter((entry) => PROTECTIVE.includes(entry)));
  if (drill.helmet || isHardTowards) needed.add("helmet");
  if (isHardTowards) needed.add("screen");
  if (isFaceGuarded) needed.add("face-guard");
  return [...needed];
}

function underEightWords(drill: Drill, player: DrillPlayer): string | null {
  if (player.ageYears >= YOUNGEST_YEARS || drill.setup === "dry" || isBodyWork(drill)) return null;
  if (drill.setup !== "tee" && drill.setup !== "toss") return "Not under 8: only dry, tee and toss drills, strength and mobility.";
  return !drill.hardBalls || hasSoftBalls(player.gear) ? null : "Under 8 only with soft balls, and there are none.";
}

function spaceWords(drill: Drill, player: DrillPlayer): string | null {
  const { w, l } = drill.spaceM;
  const { widthM, lengthM } = player.space;
  const isRoomy = Math.min(widthM, lengthM) >= Math.min(w, l) && Math.max(widthM, lengthM) >= Math.max(w, l);
  return isRoomy ? null : `Needs ${w} x ${l} m; there are ${widthM} x ${lengthM} m.`;
}

function seasonWords(drill: Drill, player: DrillPlayer): string | null {
  if (player.season === "break" && !isBodyWork(drill)) return "Break: only strength and mobility.";
  const forbidden = player.forbiddenFocus ?? [];
  const isOnlyForForbidden = drill.faults.length > 0 && drill.faults.every(({ fault }) => forbidden.includes(fault));
  return isOnlyForForbidden ? "Works only on what the season leaves alone." : null;
}

function keptWords(drill: Drill, { keptDrills }: DrillPlayer): string | null {
  if (!keptDrills || keptDrills.some(({ drillId }) => drillId === drill.id)) return null;
  return keptDrills.length > 0 ? "Not one of the drills that this focus had before the season." : "This focus had no drills before the season.";
}

const listed = (names: readonly string[]) => names.join("; ").toLowerCase();

function wordsOf(id: LimitId, drill: Drill, player: DrillPlayer, catalogue: GearCatalogue): string | null {
  const who = player.firstName ?? "this player";
  const years = player.ageYears;
  switch (id) {
    case "paused":
      return player.isPaused && !isBodyWork(drill) ? "Swing homework is paused until it is cleared." : null;
    case "complaint": {
      const parts = drill.avoidParts.filter((part) => player.complaints.includes(part));
      return parts.length > 0 ? `Not while ${who} has a complaint there: ${parts.join(", ")}.` : null;
    }
    case "age":
      return Math.max(years, YOUNGEST_YEARS) < drill.minAge ? `From age ${drill.minAge}; ${who} is ${years}.` : null;
    case "level":
      return drill.levels.includes(player.level) ? null : `Made for ${drill.levels.join(", ")}; ${who} is in ${player.level}.`;
    case "under-eight":
      return underEightWords(drill, player);
    case "adult": {
      const needed = adultNeeded(drill, years);
      return isAdultEnough(player.adult, needed) ? null : ADULT_WORDS[needed];
    }
    case "protection": {
      const missing = missingGear(protectionNeeded(drill, years), player.gear, catalogue);
      return missing.length > 0 ? `Needs protection: ${listed(gearNames(missing, catalogue))}.` : null;
    }
    case "partner": {
      const people = Math.max(player.partnerCount, isAdultEnough(player.adult, "in-charge") ? 1 : 0);
      if (people >= drill.partnerCount) return null;
      return drill.partnerCount === 1 ? "Needs a partner." : `Needs ${drill.partnerCount} partners.`;
    }
    case "gear": {
      const needed = drill.gear.filter((entry) => !PROTECTIVE.includes(entry));
      const missing = missingGear(needed, player.gear, catalogue);
      return missing.length > 0 ? `Not at hand: ${listed(gearNames(missing, catalogue))}.` : null;
    }
    case "space":
      return spaceWords(drill, player);
    case "cage":
      return !drill.needsCage || player.space.hasCage || player.gear.includes("open-field") ? null : "Needs a cage or an open field.";
    case "cause":
      return (drill.avoidCauses ?? []).some((cause) => player.causesWorkedOn.includes(cause)) ? "Not while its cause is being worked on." : null;
    case "learned-first":
      return (drill.requiresDrill ?? []).every((needed) => player.learnedDrills.includes(needed)) ? null : "Another drill is learned first.";
    case "sport":
      return drill.sport === "both" || drill.sport === player.sport ? null : `A ${drill.sport} drill.`;
    case "slap":
      return drill.onlyFor === "slap" && !player.isSlapper ? "Only for slappers." : null;
    case "season":
      return seasonWords(drill, player);
    case "kept":
      return keptWords(drill, player);
  }
}

/**
 * Every hard limit that the drill breaks for the player today, in the order of {@link LIMIT_IDS}; empty = may be done.
 * Under 8 years counts as 8 with limits of its own; adult rules bind minors only, "nearby" those under 15. Width and
 * length of the room may be swapped. A screen in a list is also met by a fine-mesh screen.
 * Source: the library's drill fields, gear rule and levels.
 */
export function brokenLimits(drill: Drill, player: DrillPlayer, catalogue: GearCatalogue): BrokenLimit[] {
  return LIMIT_IDS.flatMap((id) => {
    const words = wordsOf(id, drill, player, catalogue);
    return words === null ? [] : [{ id, words }];
  });
}
