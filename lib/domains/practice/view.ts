import type { Id } from "@/lib/core/ids";
import type { FamilyNote, SentPlanView } from "@/lib/domains/plans/view";
import type { PainPart, Side } from "@/lib/domains/roster/rules";
import type { PauseView } from "@/lib/domains/roster/view";
import type { SwingsNow } from "@/lib/domains/roster/loads/rules";
import type { FieldCaution } from "@/lib/prescribe/field-cautions";
import type { Scene } from "@/lib/prescribe/scene";
import { plannedDays, totalsOf, weekdayOf, type CountedDay, type Totals } from "./rules";
import type { DoneRight, FamilyPlayerRow } from "./scope";

/** A drill of the plan, as the player does it. */
export interface HomeworkDrill {
  readonly planDrillId: Id;
  readonly name: string;
  readonly steps: readonly string[];
  readonly cue: string | null;
  readonly worked: string;
  readonly equipment: readonly string[];
  readonly safety: readonly string[];
  readonly scene: Scene | null;
  /** The own clip that shows it done right, as a coach said; null without one, and while no consent to film is in force. */
  readonly doneRight: DoneRight | null;
  /** The plan has it on these other days of the week (1 = Monday); null when it is for today or for any day. */
  readonly otherDays: readonly number[] | null;
  readonly times: number;
  readonly isSwing: boolean;
  /** How often it is counted for today; 0 before anything is. */
  readonly doneTimes: number;
  /** It was done on as many other days of this week as it may be. */
  readonly isEnoughThisWeek: boolean;
  /** It was counted on no day yet: the set-up is looked at together first. */
  readonly isFirstTime: boolean;
}

/**
 * Swings stop: what a family reads of it. How much it hurt and the own words of a report go to the coaches alone; what the
 * academy noted of an incident is written for the family.
 */
export interface StopView {
  readonly pauseId: Id;
  readonly cause: PauseView["cause"];
  /** What happened and what was done at once; null for a report of pain. */
  readonly noted: { readonly words: string; readonly firstAid: string } | null;
  readonly part: PainPart;
  readonly reportedBy: string;
  readonly told: readonly string[];
  readonly isClearedByCoach: boolean;
  readonly isClearedByFamily: boolean;
}

/** Swings stop for a player: why, and who may clear the family's part. */
export interface StopsView {
  readonly playerId: Id;
  readonly givenName: string;
  readonly isAdult: boolean;
  readonly canClear: boolean;
  readonly stops: readonly StopView[];
}

export interface PlanChoice {
  readonly planId: Id;
  readonly side: Side;
  readonly oneThing: string;
  readonly isShown: boolean;
}

/** Everything that the family's first page shows. */
export interface TodayView extends StopsView {
  readonly today: string;
  /** False below eleven: then the page holds no numbers but counts to do. */
  readonly showsNumbers: boolean;
  /** More than one plan may be in force: another side, another focus. */
  readonly choices: readonly PlanChoice[];
  readonly note: FamilyNote | null;
  /** Whether the plan asks for something today; null without a plan. */
  readonly phase: "before" | "now" | "over" | null;
  readonly drills: readonly HomeworkDrill[];
  /** Names of the drills that wait while swings are paused. */
  readonly onHold: readonly string[];
  readonly minutes: number;
  /** Swings of all sources: today and in the seven days that end today, and how many are left. */
  readonly load: SwingsNow;
  readonly cautions: readonly string[];
  /** Thunder, heat, pitching: what is said of the place for these drills. */
  readonly fieldCautions: readonly FieldCaution[];
  /** This week by the shown plan: days on which anything of it was done. */
  readonly doneDaysThisWeek: number;
  /** This week in all, of every plan. */
  readonly week: Totals;
}

/** The days on which homework was done, of those a plan asks for. */
export interface HomeworkCount {
  readonly planId: Id;
  readonly side: Side;
  readonly startsOn: string;
  readonly endsOn: string;
  readonly doneDays: number;
  readonly plannedDays: number;
  /** The last day on which anything of it was done. */
  readonly lastDay: string | null;
}

/** What was counted for a player: per plan in force, newest first, and this week in all. */
export interface HomeworkCounts {
  readonly playerId: Id;
  readonly plans: readonly HomeworkCount[];
  readonly week: Totals;
}

export interface WeekDay {
  readonly day: string;
  readonly drills: readonly { readonly planDrillId: Id; readonly name: string; readonly times: number; readonly swings: number }[];
  readonly times: number;
  readonly swings: number;
}

/** Monday to Sunday, with what was counted. */
export interface WeekView {
  readonly days: readonly WeekDay[];
  readonly total: Totals;
}

/** What a parent reads on one page. */
export interface ParentsView extends StopsView {
  readonly name: string;
  readonly today: string;
  readonly plans: readonly { readonly note: FamilyNote; readonly count: HomeworkCount }[];
  readonly week: Totals;
  /** Who of the staff looked at clips, by day, newest first. */
  readonly watchers: readonly { readonly day: string; readonly names: readonly string[] }[];
}

/** A row in force as the database holds it, with the drill it belongs to. */
export interface LogRow extends CountedDay {
  readonly planDrillId: Id;
}

export function stopViews(player: Pick<FamilyPlayerRow, "pauses">, names: ReadonlyMap<Id, string>, told: readonly { pauseId: Id; name: string }[]): StopView[] {
  return player.pauses.map(({ painReport, incident, ...pause }) => ({
    pauseId: pause.id,
    cause: (incident?.kind ?? "pain-report") as PauseView["cause"],
    noted: incident && { words: incident.words, firstAid: incident.firstAid },
    part: (painReport?.part ?? incident?.part ?? "elsewhere") as PainPart,
    reportedBy: names.get(painReport?.reportedById ?? incident?.notedById ?? "") ?? "Somebody",
    told: told.filter(({ pauseId }) => pauseId === pause.id).map(({ name }) => name),
    isClearedByCoach: pause.coachClearedAt !== null,
    isClearedByFamily: pause.familyClearedAt !== null,
  }));
}

/** The plan's part of the first page: the drills, what is on hold, the cautions. `logs` are this week's rows in force. */
export function homeworkView(sent: SentPlanView | null, logs: readonly LogRow[], week: readonly string[], today: string, isPaused: boolean, everDone: ReadonlySet<Id> = new Set(), doneRight: ReadonlyMap<Id, DoneRight> = new Map()) {
  if (!sent) return { phase: null, drills: [], onHold: [], minutes: 0, cautions: [], doneDaysThisWeek: 0 };
  const { plan } = sent;
  const phase = today < plan.startsOn ? ("before" as const) : today > plan.endsOn ? ("over" as const) : ("now" as const);
  const mine = logs.filter((row) => plan.drills.some(({ id }) => id === row.planDrillId));
  const shown = phase === "now" ? plan.drills.filter((drill) => !isPaused || !drill.stopsWhenPaused) : [];
  return {
    phase,
    drills: shown.map((drill): HomeworkDrill => {
      const rows = mine.filter(({ planDrillId, times }) => planDrillId === drill.id && times > 0);
      return {
        planDrillId: drill.id,
        name: drill.name,
        steps: drill.steps,
        cue: drill.cue,
        worked: drill.worked,
        equipment: drill.equipment,
        safety: drill.safety,
        scene: drill.scene,
        doneRight: doneRight.get(drill.id) ?? null,
        otherDays: drill.weekdays.length === 0 || drill.weekdays.includes(weekdayOf(today)) ? null : drill.weekdays,
        times: drill.timesPerDay,
        isSwing: drill.swingsPerDay > 0,
        doneTimes: rows.find(({ day }) => day === today)?.times ?? 0,
        isFirstTime: !everDone.has(drill.id),
        isEnoughThisWeek: drill.daysPerWeekMost !== null && rows.filter(({ day }) => day !== today).length >= drill.daysPerWeekMost,
      };
    }),
    onHold: isPaused && phase === "now" ? plan.drills.filter((drill) => drill.stopsWhenPaused).map(({ name }) => name) : [],
    minutes: shown.filter(({ weekdays }) => weekdays.length === 0 || weekdays.includes(weekdayOf(today))).reduce((sum, { minutesPerDay }) => sum + minutesPerDay, 0),
    cautions: shown.length > 0 ? plan.cautions : [],
    doneDaysThisWeek: totalsOf(mine, week[0] ?? today, week.at(-1) ?? today).days,
  };
}

/** How much of a plan was done; `logs` are the rows in force of at least its drills, over at least its span. */
export function countView(plan: { id: Id; side: string; startsOn: string; endsOn: string; daysPerWeek: number; drillIds: readonly Id[] }, logs: readonly LogRow[]): HomeworkCount {
  const mine = logs.filter(({ planDrillId, times }) => times > 0 && plan.drillIds.includes(planDrillId));
  return {
    planId: plan.id,
    side: plan.side as Side,
    startsOn: plan.startsOn,
    endsOn: plan.endsOn,
    doneDays: totalsOf(mine, plan.startsOn, plan.endsOn).days,
    plannedDays: plannedDays(plan),
    lastDay: mine.reduce<string | null>((last, { day }) => (last === null || day > last ? day : last), null),
  };
}
