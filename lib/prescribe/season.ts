import type { Drill, DrillPlayer, KeptDrill, Season } from "./drill";

/** Areas that are about when and where to look, not about how the body moves: a season lets a focus there begin. */
const APPROACH_AREAS = ["timing-rhythm", "head-eyes"];
/** A new mechanical focus ends this many days before the first game. */
const QUIET_DAYS = 14;

/** What is asked of the season: may this fault be a focus now? */
export interface SeasonQuestion {
  /** Null while the head coach has not set it: nothing is blocked. */
  readonly season: Season | null;
  /** Area of the focus fault (library id). */
  readonly area: string;
  /** Not yet a focus before this season began. */
  readonly isNewFocus: boolean;
  /** Whole days to the first game; null when nobody said. */
  readonly daysToFirstGame: number | null;
  /** The head coach agreed, with a reason that is kept. */
  readonly hasHeadCoachAgreed: boolean;
}

/** Null when the fault may be a focus now, else the rule in one sentence. Source: the library's season rule for plans. */
export function seasonRefusal(question: SeasonQuestion): string | null {
  const isMechanical = !APPROACH_AREAS.includes(question.area);
  if (question.season === null || question.season === "off-season" || question.season === "break") return null;
  if (!isMechanical || !question.isNewFocus || question.hasHeadCoachAgreed) return null;
  if (question.season === "in-season") return "In season no new change of the movement begins. The head coach may agree otherwise, with a reason.";
  const isQuiet = question.daysToFirstGame !== null && question.daysToFirstGame <= QUIET_DAYS;
  return isQuiet ? "In the last 14 days before the first game no new change of the movement begins. The head coach may agree otherwise, with a reason." : null;
}

/** Whether the focus keeps the drills it had before the season, with no larger dose. Source: the library's season rule for plans. */
export function keepsDrills({ season, area, isNewFocus, hasHeadCoachAgreed }: SeasonQuestion): boolean {
  return season === "in-season" && !APPROACH_AREAS.includes(area) && !isNewFocus && !hasHeadCoachAgreed;
}

type Keeps = Pick<DrillPlayer, "keptDrills">;

const keptOf = (drillId: string, { keptDrills }: Keeps) => keptDrills?.find((kept) => kept.drillId === drillId);

/** On how many days a week a drill is done at most: by its own limit, and by what it had before the season where that rule holds. */
export function mostDaysAWeek({ id, maxSessionsPerWeek }: { readonly id: string; readonly maxSessionsPerWeek?: number }, player: Keeps): number {
  return Math.min(maxSessionsPerWeek ?? 7, keptOf(id, player)?.daysPerWeek ?? 7);
}

/** The drill with no larger dose than it had before the season, where that rule holds. */
export function withinKept<D extends Drill>(drill: D, player: Keeps): D {
  const kept = keptOf(drill.id, player);
  if (!kept) return drill;
  const { sets, reps, minutes, fullSwings } = drill.dose;
  const times = Math.min(sets * reps, kept.timesPerDay);
  const isWhole = times === sets * reps;
  const swings = Math.min(kept.swingsPerDay, Math.ceil((fullSwings * times) / (sets * reps)));
  return { ...drill, dose: { ...drill.dose, ...(isWhole ? {} : { sets: 1, reps: times }), minutes: Math.min(minutes, kept.minutesPerDay), fullSwings: swings } };
}

/** Why a drill's dose is more than the season lets it be, in one sentence; null when it is not. */
export function beyondKept(planned: KeptDrill, player: Keeps): string | null {
  const kept = keptOf(planned.drillId, player);
  if (!kept) return null;
  const isMore = planned.timesPerDay > kept.timesPerDay || planned.minutesPerDay > kept.minutesPerDay || planned.swingsPerDay > kept.swingsPerDay || planned.daysPerWeek > kept.daysPerWeek;
  return isMore ? `No larger dose than before the season: ${kept.timesPerDay} times and ${kept.minutesPerDay} minutes a day, ${kept.daysPerWeek} days a week.` : null;
}
