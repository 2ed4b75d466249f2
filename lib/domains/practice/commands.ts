import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { wordsOf } from "@/lib/domains/plans/schema";
import { openPause } from "@/lib/domains/roster/scope";
import { dayOf, dayValue } from "@/lib/core/days";
import { now, todayIn } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { HomeworkSubject } from "./policy";
import { countProblem, isBodyWork, swingsFor } from "./rules";
import { inForce } from "./scope";

type Homework = Granted<HomeworkSubject, "practice.log">;

/** The drill with its plan and player. Counts of one drill are written one after the other, so that none is doubled. */
async function readHomework(tx: Transaction, homework: Homework) {
  await tx.$executeRaw`SELECT 1 FROM "PlanDrill" WHERE "id" = ${homework.id}::uuid FOR UPDATE`;
  return tx.planDrill.findUniqueOrThrow({
    where: { id: homework.id },
    include: {
      plan: {
        select: {
          startsOn: true, endsOn: true, state: true,
          battingSide: { select: { player: { select: { leftAt: true, location: { select: { timeZone: true } }, pauses: { where: openPause, select: { id: true } } } } } },
        },
      },
    },
  });
}

/**
 * Counts a drill for a day. What was counted for that day before stays as a row, and the new row stands for it.
 * @param times null for as many as the plan says
 */
export async function countPractice(tx: Transaction, actor: Person, homework: Homework, given: { day?: string; times: number | null }): Promise<{ times: number; swings: number }> {
  const { academyId, playerId, id: planDrillId } = homework;
  const { plan, words, ...drill } = await readHomework(tx, homework);
  const { player } = plan.battingSide;
  const today = todayIn(player.location.timeZone);
  const day = given.day ?? today;
  const before = await readCount(tx, academyId, planDrillId, day);
  const times = given.times ?? drill.timesPerDay;
  const swings = given.times === null ? drill.swingsPerDay : swingsFor(drill, times);
  const problem = countProblem({
    day, today, times, swings,
    plan: { startsOn: dayOf(plan.startsOn), endsOn: dayOf(plan.endsOn), state: plan.state },
    hasPlayerLeft: player.leftAt !== null,
    isPaused: player.pauses.length > 0,
    isSwing: !isBodyWork(wordsOf(words).setup),
    timesBefore: before?.times ?? 0,
  });
  if (problem) throw given.times === null ? new ConflictError(problem) : new InvalidError(problem, { times: problem });
  if (before?.times !== times || before.swings !== swings) {
    await tx.practiceLog.create({
      data: { id: newId(), academyId, playerId, planDrillId, day: dayValue(day), times, swings, loggedById: actor.userId, loggedAt: now(), correctsId: before?.id },
    });
  }
  return { times, swings };
}

async function readCount(tx: Transaction, academyId: Id, planDrillId: Id, day: string) {
  return tx.practiceLog.findFirst({ where: { academyId, planDrillId, day: dayValue(day), ...inForce }, select: { id: true, times: true, swings: true } });
}

/** Takes back what is counted for a day. It may be taken back even while swings are paused. */
export async function takeBackPractice(tx: Transaction, actor: Person, homework: Homework, given: { day?: string }): Promise<void> {
  const { plan } = await readHomework(tx, homework);
  const day = given.day ?? todayIn(plan.battingSide.player.location.timeZone);
  const before = await readCount(tx, homework.academyId, homework.id, day);
  if (!before || before.times === 0) throw new ConflictError("Nothing is counted for that day. Nothing was changed.");
  await countPractice(tx, actor, homework, { day, times: 0 });
}
