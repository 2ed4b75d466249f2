import type { DrillRecord } from "@/lib/domains/library/schema";
import { weekdayName } from "@/lib/domains/roster/loads/view";
import type { DrillPlayer } from "@/lib/prescribe/drill";
import { mostDaysAWeek } from "@/lib/prescribe/season";
import { plannedSwings, swingsOf, type PlannedDay, type SwingCaps } from "@/lib/prescribe/swing-load";
import { elsewhereOn, WEEKDAYS, type PracticeOrder, type SwingsElsewhere, type WeekRequest } from "@/lib/prescribe/week/request";
import type { CountedDrill, CountedPlan, DrillChoice } from "../rules";

const dosed = ({ name, timesPerDay, swingsPerDay, minutesPerDay }: CountedDrill) => ({
  name,
  dose: { minutes: minutesPerDay, sets: 1, reps: timesPerDay, fullSwings: swingsPerDay, effortPercent: 100 },
});

/**
 * The week of all plans that are in force together: caps belong to the player, not to a plan or a batting side. Drills with
 * weekdays stand on them; the others stand on the fullest days, since nobody said which they are.
 */
export function plannedWeek(plans: readonly CountedPlan[]): PlannedDay[] {
  const drills = plans.flatMap((plan) => plan.drills.map((drill) => ({ drill, days: Math.min(plan.daysPerWeek, drill.daysPerWeekMost ?? 7) })));
  if (drills.every(({ drill }) => drill.weekdays.length === 0)) {
    const dayCount = Math.max(0, ...plans.map(({ daysPerWeek }) => daysPerWeek));
    return Array.from({ length: dayCount }, (_, day) => ({ name: "One day", drills: drills.filter(({ days }) => day < days).map(({ drill }) => dosed(drill)) }));
  }
  const week = WEEKDAYS.map((weekday) => ({ name: weekdayName(weekday), drills: drills.filter(({ drill }) => drill.weekdays.includes(weekday)).map(({ drill }) => dosed(drill)) }));
  for (const { drill, days } of drills) {
    if (drill.weekdays.length > 0) continue;
    const fullest = [...week].sort((a, b) => swingsOf(b.drills) - swingsOf(a.drills)).slice(0, days);
    for (const day of fullest) day.drills.push(dosed(drill));
  }
  return week;
}

const named = (elsewhere: readonly SwingsElsewhere[]) =>
  elsewhere.filter(({ weekdays, swingsEach }) => weekdays.length * swingsEach > 0).map(({ name, weekdays, swingsEach }) => ({ name, swingsPerWeek: weekdays.length * swingsEach }));

/** Where home and other swings of a day pass the day's cap together; without weekdays, the fullest day meets the fullest. */
function dayRefusals(week: readonly PlannedDay[], caps: SwingCaps, elsewhere: readonly SwingsElsewhere[]): string[] {
  const isDated = week.length === 7;
  const home = (weekday: number) => swingsOf((isDated ? week[weekday - 1] : week[0])?.drills ?? []);
  const over = WEEKDAYS.filter((weekday) => {
    const [own, other] = [home(weekday), elsewhereOn(elsewhere, weekday)];
    return own > 0 && other > 0 && own + other > caps.perDay;
  });
  return (isDated ? over : over.slice(0, 1)).map((weekday) => {
    const parts = [`home ${home(weekday)}`, ...elsewhere.filter(({ weekdays }) => weekdays.includes(weekday)).map(({ name, swingsEach }) => `${name} ${swingsEach}`)];
    const sum = home(weekday) + elsewhereOn(elsewhere, weekday);
    return `${weekdayName(weekday)} ${isDated ? "has" : "may have"} ${sum} swings (${parts.join(" + ")}). The limit is ${caps.perDay} a day.${isDated ? "" : " Say on which days the drills are done."}`;
  });
}

/** Which caps the plans would pass together with what a usual week brings elsewhere, each with its sum; empty when none. */
export function swingRefusals(plans: readonly CountedPlan[], caps: SwingCaps, elsewhere: readonly SwingsElsewhere[] = []): string[] {
  const week = plannedWeek(plans);
  // What others let a player swing is not refused here: without a swing at home there is nothing to refuse.
  if (week.every(({ drills }) => swingsOf(drills) === 0)) return [];
  const { refusals } = plannedSwings(week, caps, named(elsewhere));
  // The first day is the fullest: what is said of it holds, and is not said again for each lighter one.
  const [first] = refusals.filter((words) => words.startsWith("One day "));
  const said = [...(first ? [first] : []), ...refusals.filter((words) => !words.startsWith("One day ")), ...dayRefusals(week, caps, elsewhere)];
  const swingDays = week.length === 7 ? WEEKDAYS.filter((weekday) => swingsOf(week[weekday - 1]?.drills ?? []) + elsewhereOn(elsewhere, weekday) > 0).length : 0;
  const busyDays = WEEKDAYS.filter((weekday) => elsewhereOn(elsewhere, weekday) > 0).length;
  const most = Math.max(busyDays, 7 - caps.noSwingDaysPerWeek);
  if (swingDays > most && !said.some((words) => words.includes("days have swings"))) {
    said.push(`${swingDays} days have swings, with those elsewhere. At least ${caps.noSwingDaysPerWeek} days of the week stay without.`);
  }
  return said;
}

/** How many drills are proposed at most: few for whoever is new to it. */
const MOST_PROPOSED: Readonly<Record<PracticeOrder, number>> = { blocked: 3, mixed: 4 };
/** From this age practice is mixed early unless the coach says otherwise. House rule, no source. */
const MIXED_FROM_YEARS = 13;

export function usualOrder(ageYears: number): PracticeOrder {
  return ageYears >= MIXED_FROM_YEARS ? "mixed" : "blocked";
}

interface WeekGiven {
  readonly choice: DrillChoice;
  readonly player: Pick<DrillPlayer, "keptDrills">;
  readonly caps: SwingCaps;
  readonly minutesPerDay: number;
  readonly daysPerWeek: number;
  readonly order: PracticeOrder;
  readonly elsewhere: readonly SwingsElsewhere[];
  /** Other plans in force, whose swings leave less room. */
  readonly beside: readonly CountedPlan[];
  /** Full swings that the week may hold after the last one, of all sources. */
  readonly mostInWeek: number;
}

/** What a week of this plan has to fit in: the hard limits have left the candidates, other plans have taken of the caps. */
export function weekRequest({ choice, player, caps, beside, order, mostInWeek, ...given }: WeekGiven): WeekRequest<DrillRecord> {
  const week = plannedSwings(plannedWeek(beside), caps);
  const fullest = Math.max(0, ...week.byDay.map(({ swings }) => swings));
  const less = (cap: number, by: number) => Math.max(0, cap - by);
  return {
    ...given,
    order,
    candidates: choice.allowed.map(({ drill, effect, why }) => ({ drill, effect, why: `${why} ${drill.purpose}` })),
    caps: { ...caps, homePerDay: less(caps.homePerDay, fullest), perSession: less(caps.perSession, fullest), perDay: less(caps.perDay, fullest), perWeek: less(Math.min(caps.perWeek, mostInWeek), week.total) },
    mostDrills: MOST_PROPOSED[order],
    mostDaysOf: Object.fromEntries(choice.allowed.map(({ drill }) => [drill.id, mostDaysAWeek(drill, player)])),
  };
}

/** What is said of a plan that brings far more swings than the last week did; null when it does not. A coach may know better. */
export function growthWords(total: number, lastWeek: number, mostInWeek: number, percent: number): string | null {
  if (total <= mostInWeek) return null;
  return `The week would bring ${total} swings after ${lastWeek} in the last seven days. The rule of thumb is ${percent} % more at most: ${mostInWeek}. You decide.`;
}

/** What a page showed of a draft: when it is no longer so, somebody else was faster. */
export function draftSeen(drills: readonly { readonly drillId: string; readonly timesPerDay: number; readonly minutesPerDay: number; readonly weekdays: readonly number[] }[]): string {
  return drills.map(({ drillId, timesPerDay, minutesPerDay, weekdays }) => `${drillId} ${timesPerDay} ${minutesPerDay} ${weekdays.join("")}`).join("; ");
}

/** All that the preview of a draft shows and somebody may change meanwhile, to be held against what is sent. */
export function letterSeen(note: {
  readonly keptWell: string; readonly oneThing: string; readonly why: string; readonly cue: string; readonly forFamily: string; readonly nextCheckOn: Date; readonly clipId: string | null;
  readonly frameIndex: number | null; readonly plan: { readonly minutesPerDay: number; readonly daysPerWeek: number; readonly practiceOrder: string; readonly drills: Parameters<typeof draftSeen>[0] };
}): string {
  const { keptWell, oneThing, why, cue, forFamily, nextCheckOn, clipId, frameIndex, plan } = note;
  const { minutesPerDay, daysPerWeek, practiceOrder } = plan;
  return JSON.stringify([keptWell, oneThing, why, cue, forFamily, nextCheckOn.toISOString(), clipId, frameIndex, minutesPerDay, daysPerWeek, practiceOrder, draftSeen(plan.drills)]);
}
