import type { Drill } from "../drill";
import type { SwingCaps } from "../swing-load";

/** How practice is laid out: one drill after the other, or drills mixed within a day and from the first day on. */
export const PRACTICE_ORDERS = ["blocked", "mixed"] as const;
export type PracticeOrder = (typeof PRACTICE_ORDERS)[number];

/** Swings of a usual week outside homework, by source and by day (1 = Monday to 7 = Sunday). */
export interface SwingsElsewhere {
  readonly name: string;
  readonly weekdays: readonly number[];
  readonly swingsEach: number;
}

/** A drill that all hard limits allow, with what it does for the focus (0 to 1). */
export interface Candidate<D extends Drill = Drill> {
  readonly drill: D;
  readonly effect: number;
  readonly why: string;
  /** Half of the library's dose, for where the whole does not fit; `drill.dose` says how much that is. */
  readonly isHalf?: boolean;
}

/** How many days of the week a drill is done. */
export interface DayCount<D extends Drill = Drill> {
  readonly candidate: Candidate<D>;
  readonly days: number;
}

export const minutesOf = (drill: Drill): number => Math.ceil(drill.dose.minutes);

/** Half a dose is worth less than half, so that it never takes the place of a whole one that fits. House rule, no source. */
const HALF_WORTH = 0.4;
/** A drill of fewer turns is not halved. */
const LEAST_TURNS = 4;

/** The same drill with half its turns, minutes and swings, all rounded up; null for one of few turns. */
export function halfOf<D extends Drill>({ drill, effect, why }: Candidate<D>): Candidate<D> | null {
  const { sets, reps, minutes, fullSwings } = drill.dose;
  const turns = sets * reps;
  if (turns < LEAST_TURNS) return null;
  const half = Math.ceil(turns / 2);
  const dose = { ...drill.dose, sets: 1, reps: half, minutes: Math.ceil(minutes / 2), fullSwings: Math.ceil((fullSwings * half) / turns) };
  return { drill: { ...drill, dose }, effect: HALF_WORTH * effect, why, isHalf: true };
}

/** What a week of homework has to fit in. */
export interface WeekRequest<D extends Drill = Drill> {
  readonly candidates: readonly Candidate<D>[];
  readonly minutesPerDay: number;
  /** On how many days of the week at most. */
  readonly daysPerWeek: number;
  readonly caps: SwingCaps;
  readonly elsewhere: readonly SwingsElsewhere[];
  readonly order: PracticeOrder;
  /** Drills in a plan at most. */
  readonly mostDrills: number;
  /** At most so many sessions a week of one drill, by its id; a drill that is not in it may be done on every day. */
  readonly mostDaysOf?: Readonly<Record<string, number>>;
}

export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;

/** Swings that other sources bring on a weekday. */
export function elsewhereOn(elsewhere: readonly SwingsElsewhere[], weekday: number): number {
  return elsewhere.reduce((sum, { weekdays, swingsEach }) => sum + (weekdays.includes(weekday) ? swingsEach : 0), 0);
}

/** What of the caps is left for homework. */
export interface SwingRoom {
  /** Swings left on each weekday, Monday first. */
  readonly byDay: readonly number[];
  readonly week: number;
  /** Weekdays that bring swings elsewhere already. */
  readonly busyDays: readonly number[];
  /** Days without other swings that homework may still make swing days. */
  readonly freeSwingDays: number;
}

/** Room under every cap at once: home a day, one session, all swings of a day, any seven days, days without a swing. */
export function swingRoom({ caps, elsewhere }: Pick<WeekRequest, "caps" | "elsewhere">): SwingRoom {
  const others = WEEKDAYS.map((weekday) => elsewhereOn(elsewhere, weekday));
  const sum = others.reduce((so, swings) => so + swings, 0);
  const busyDays = WEEKDAYS.filter((_, index) => (others[index] ?? 0) > 0);
  return {
    byDay: others.map((swings) => Math.max(0, Math.min(caps.homePerDay, caps.perSession, caps.perDay - swings))),
    week: Math.max(0, caps.perWeek - sum),
    busyDays,
    freeSwingDays: Math.max(0, 7 - caps.noSwingDaysPerWeek - busyDays.length),
  };
}

/** Rungs from a movement without a ball to a ball that comes: what is nearest to the game stands highest. */
export function rungOf({ setup }: Pick<Drill, "setup">): number {
  if (setup === "live" || setup === "machine") return 3;
  if (setup === "toss") return 2;
  return setup === "tee" ? 1 : 0;
}

export type DrillKind = "easy" | "transfer" | "between";

/**
 * Which drills are the easy ones and which carry over to the game, by id. Transfer is the highest rung that is allowed
 * and hits a ball; easy is the lowest rung or the foot of a ladder below it. With one rung only, none is a transfer.
 */
export function kindsOf(candidates: readonly Pick<Candidate, "drill">[]): ReadonlyMap<string, DrillKind> {
  const rungs = candidates.map(({ drill }) => rungOf(drill));
  const [top, foot] = [Math.max(0, ...rungs), Math.min(3, ...rungs)];
  return new Map(
    candidates.map(({ drill }) => {
      const rung = rungOf(drill);
      if (rung === top && rung > 0 && top > foot) return [drill.id, "transfer"];
      return [drill.id, rung === foot || drill.easier === null ? "easy" : "between"];
    }),
  );
}
