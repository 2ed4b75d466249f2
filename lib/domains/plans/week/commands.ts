import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError } from "@/lib/core/errors";
import { newId } from "@/lib/core/ids";
import { readSwingSources } from "@/lib/domains/roster/loads/scope";
import type { Transaction } from "@/lib/platform/database";
import { solveLinearModel } from "@/lib/platform/solver";
import { planWeek } from "@/lib/prescribe/week/plan-week";
import type { PracticeOrder } from "@/lib/prescribe/week/request";
import { relaxations, whyIn } from "@/lib/prescribe/week/week-words";
import { mostDaysAWeek } from "@/lib/prescribe/season";
import { mostAfter } from "@/lib/prescribe/swing-load";
import { drillInPlan, refuseOverCaps, takeUp, type Setting } from "../commands";
import type { PlanSubject } from "../policy";
import { countedPlan, drillRefusals, drillWords, swingsFor } from "../rules";
import { readPlansBeside } from "../scope";
import { draftSeen, swingRefusals, weekRequest } from "./rules";
import { readLastWeek } from "./scope";

/** The solver's time on a busy machine; at rest a week takes a fraction of a second. Well below what a transaction may take. */
const SOLVER_SECONDS = 4;
const SAID = 3;

export const NOT_ASKED = "First say what swings a usual week brings elsewhere: team, lessons and games. Homework leaves room for them. Nothing was changed.";

/**
 * Fills a draft with the best week there is. Every drill is asked once more whether it may be done, and the whole once more
 * whether it keeps the caps, whatever the optimiser said. @returns what was put in, in one sentence
 */
export async function suggestWeek(tx: Transaction, actor: Person, granted: Granted<PlanSubject, "plan.write">, given: { practiceOrder: PracticeOrder; seen?: string }): Promise<string> {
  const setting = await takeUp(tx, actor, granted);
  const { plan, planning, library, facts, elsewhere } = setting;
  if (given.seen !== undefined && given.seen !== draftSeen(plan.drills)) throw new ConflictError("The drills were changed since this page was opened. Look at them first; nothing was changed.");
  if (elsewhere === null) throw new ConflictError(NOT_ASKED);
  const beside = (await readPlansBeside(tx, setting.note.academyId, setting.note.playerId, plan.focusId, facts.today)).map(countedPlan);
  const sources = await readSwingSources(tx, setting.note.academyId, setting.note.playerId);
  const lastWeek = await readLastWeek(tx, setting.note.academyId, setting.note.playerId, facts.today, sources);
  const mostInWeek = mostAfter(lastWeek, planning.caps, library.loads.swings.growthPerWeekPercent);
  const request = weekRequest({ ...planning, mostInWeek, minutesPerDay: plan.minutesPerDay, daysPerWeek: plan.daysPerWeek, order: given.practiceOrder, elsewhere, beside });
  const week = await planWeek(request, solveLinearModel, SOLVER_SECONDS);
  if (week.drills.length === 0) throw new ConflictError(nothingFits(setting, request));
  const drills = week.drills.map((one) => {
    const { drill } = one.candidate;
    const limits = drillRefusals(planning.choice, drill.id);
    if (limits.length > 0) throw new Error(`a drill that may not be done was proposed: ${drill.id}`);
    const timesPerDay = drill.dose.sets * drill.dose.reps;
    return {
      drillId: drill.id, words: drillWords(drill, planning.player), why: whyIn(one), timesPerDay, swingsPerDay: swingsFor(drill, timesPerDay),
      minutesPerDay: Math.ceil(drill.dose.minutes), weekdays: [...one.weekdays],
    };
  });
  const refusals = swingRefusals([countedPlan({ daysPerWeek: plan.daysPerWeek, drills }), ...beside], planning.caps, elsewhere);
  if (refusals.length > 0) throw new ConflictError(`${refusals.join(" ")} Nothing was changed.`);
  await tx.planDrill.deleteMany({ where: { academyId: granted.academyId, planId: granted.id } });
  for (const [position, drill] of drills.entries()) {
    await tx.planDrill.create({ data: { ...drill, id: newId(), academyId: granted.academyId, planId: granted.id, position: position + 1 } });
  }
  await tx.plan.update({ where: { id: granted.id }, data: { practiceOrder: given.practiceOrder, editionId: library.edition.id } });
  const gap = week.gap > 0 ? ` The time was up: this may be up to ${Math.ceil(100 * week.gap)} % from the best there is.` : "";
  return `In the plan: ${drills.map(({ words }) => `“${words.name}”`).join(", ")}. Change what you like.${gap}`;
}

function nothingFits({ planning, library, note }: Setting, request: Parameters<typeof relaxations>[3]): string {
  const faultId = planning.fault?.id ?? "";
  const serving = library.drills.filter(({ faults }) => faults.some(({ fault }) => fault === faultId));
  if (serving.length === 0) return "No drill of the library works on this focus yet. Nothing was changed.";
  const found = relaxations(serving, planning.player, library.gear, request).slice(0, SAID);
  const words = found.map((one) => (one.drills === 0 ? one.words : `${one.words}: ${one.drills === 1 ? "one drill" : `${one.drills} drills`}.`));
  return `Nothing fits ${note.battingSide.player.givenName} as things are. ${words.join(" ")} Nothing was changed.`;
}

/** On which weekdays a drill is done; none = any day of the plan. */
export async function setWeekdays(tx: Transaction, actor: Person, granted: Granted<PlanSubject, "plan.write">, given: { drillId: string; weekdays: readonly number[] }): Promise<void> {
  const setting = await takeUp(tx, actor, granted);
  const { plan, library } = setting;
  const kept = drillInPlan(setting, given.drillId);
  const weekdays = [...given.weekdays];
  const drills = plan.drills.map((one) => (one.id === kept.id ? { ...one, weekdays } : one));
  const drill = library.drills.find(({ id }) => id === given.drillId) ?? { id: given.drillId };
  const most = mostDaysAWeek(drill, setting.planning.player);
  const days = new Set(drills.flatMap((one) => one.weekdays));
  const problem =
    weekdays.length > most ? `This drill is done on ${most} days a week at most.` : days.size > plan.daysPerWeek ? `The plan has ${plan.daysPerWeek} days a week; with these it would have ${days.size}. Change the days of the plan first.` : null;
  if (problem) throw new ConflictError(`${problem} Nothing was changed.`);
  await refuseOverCaps(setting, drills);
  await tx.planDrill.update({ where: { id: kept.id }, data: { weekdays } });
}
