import type { Sight } from "./types";

/** Values of some facts of a ball, by the fact's name: a list of those that count. */
export type BallFacts = Readonly<Record<string, readonly string[]>>;

/** How one symptom is read from a tally, as the library's `tally.symptoms` hold it. */
export interface TallySymptom {
  readonly symptom: string;
  /** Balls that are looked at; a ball counts only when each fact named here is known. */
  readonly of: BallFacts;
  /** Those of them that show the symptom. */
  readonly count: BallFacts;
  readonly seenFrom: number;
  readonly notSeenTo: number;
  /** Facts that must have been noted. */
  readonly needs?: readonly string[];
  /** Seen only when so large a share also shows this. */
  readonly alsoAtLeast?: { readonly count: BallFacts; readonly share: number };
  /** The share among balls `from`, less the share among balls `minus`. */
  readonly difference?: { readonly from: BallFacts; readonly minus: BallFacts };
}

/** One ball: each fact by name, null where nobody noted it. */
export interface TalliedBall {
  /** YYYY-MM-DD */
  readonly day: string;
  readonly facts: Readonly<Record<string, string | null>>;
}

/** What the tally says of one symptom. */
export interface TallyCount {
  readonly symptom: string;
  /** Balls that show it, of those that were looked at. With a difference, of the first kind of balls. */
  readonly shown: number;
  readonly of: number;
  /** 0–1, or a difference of two shares; null without balls. */
  readonly share: number | null;
  /** `not-visible`: too few balls, or between the two limits. */
  readonly state: Sight;
}

/** Least number of balls that show a symptom before it is called seen. */
const LEAST_SHOWN = 3;
const WINDOW_DAYS = 30;

/**
 * Symptoms from a contact tally: the balls of the newest day, and of earlier days back to 30 while fewer than the minimum are
 * eligible. A fact that nobody noted is unknown and never counts as absent.
 * @param minimum least number of eligible balls, from the library
 */
export function readTally(balls: readonly TalliedBall[], symptoms: readonly TallySymptom[], minimum: number): TallyCount[] {
  const newest = balls.reduce((latest, { day }) => (day > latest ? day : latest), "");
  const within = balls.filter(({ day }) => daysBetween(day, newest) <= WINDOW_DAYS);
  return symptoms.map((rule) => (rule.difference ? readDifference(within, rule, rule.difference, minimum) : readShare(within, rule, minimum)));
}

function readShare(balls: readonly TalliedBall[], rule: TallySymptom, minimum: number): TallyCount {
  const eligible = enough(balls.filter((ball) => isEligible(ball, rule, rule.of)), minimum);
  const shown = eligible.filter((ball) => matches(ball, rule.count)).length;
  const share = eligible.length > 0 ? shown / eligible.length : null;
  const also = rule.alsoAtLeast;
  const hasAlso = !also || eligible.filter((ball) => matches(ball, also.count)).length >= also.share * eligible.length;
  return { symptom: rule.symptom, shown, of: eligible.length, share, state: stateOf(rule, share, eligible.length >= minimum, shown >= LEAST_SHOWN && hasAlso) };
}

function readDifference(balls: readonly TalliedBall[], rule: TallySymptom, { from, minus }: NonNullable<TallySymptom["difference"]>, minimum: number): TallyCount {
  const [here, there] = [from, minus].map((kind) => enough(balls.filter((ball) => isEligible(ball, rule, { ...rule.of, ...kind })), minimum));
  const shareOf = (of: readonly TalliedBall[]) => of.filter((ball) => matches(ball, rule.count)).length / of.length;
  const shown = here?.filter((ball) => matches(ball, rule.count)).length ?? 0;
  if (!here || !there || here.length === 0 || there.length === 0) return { symptom: rule.symptom, shown, of: here?.length ?? 0, share: null, state: "not-visible" };
  const share = shareOf(here) - shareOf(there);
  const isEnough = here.length >= minimum && there.length >= minimum;
  return { symptom: rule.symptom, shown, of: here.length, share, state: stateOf(rule, share, isEnough, shown >= LEAST_SHOWN) };
}

function stateOf(rule: TallySymptom, share: number | null, isEnough: boolean, mayBeSeen: boolean): Sight {
  if (share === null || !isEnough) return "not-visible";
  if (share >= rule.seenFrom) return mayBeSeen ? "seen" : "not-visible";
  return share <= rule.notSeenTo ? "not-seen" : "not-visible";
}

/** Newest days first, until there are enough; the last day is taken whole. */
function enough(eligible: readonly TalliedBall[], minimum: number): TalliedBall[] {
  const days = [...new Set(eligible.map(({ day }) => day))].sort().reverse();
  const taken: TalliedBall[] = [];
  for (const day of days) {
    if (taken.length >= minimum) break;
    taken.push(...eligible.filter((ball) => ball.day === day));
  }
  return taken;
}

/** Every fact that is asked about is known, and those of `of` are as they must be. */
function isEligible(ball: TalliedBall, rule: TallySymptom, of: BallFacts): boolean {
  const asked = [...Object.keys(of), ...Object.keys(rule.count), ...(rule.needs ?? [])];
  return asked.every((fact) => ball.facts[fact] !== null && ball.facts[fact] !== undefined) && matches(ball, of);
}

function matches(ball: TalliedBall, facts: BallFacts): boolean {
  return Object.entries(facts).every(([fact, values]) => values.includes(ball.facts[fact] ?? ""));
}

function daysBetween(day: string, later: string): number {
  return (Date.parse(`${later}T00:00:00Z`) - Date.parse(`${day}T00:00:00Z`)) / 86_400_000;
}
