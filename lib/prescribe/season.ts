import type { Season } from "./drill";

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
