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
