import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { dayValue, daysAfter } from "@/lib/core/days";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import type { PlainSentence } from "@/lib/core/words/say";
import { newId, type Id } from "@/lib/core/ids";
import { now, todayIn } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { PlayerSubject } from "../policy";
import { fullSwingsOf, LOG_DAYS_BACK, SWING_SOURCES } from "./rules";
import type { logSwingsForm, swingsElsewhereForm } from "./schema";

async function todayAt(tx: Transaction, player: { id: Id }): Promise<string> {
  const { location } = await tx.player.findUniqueOrThrow({ where: { id: player.id }, select: { location: { select: { timeZone: true } } } });
  return todayIn(location.timeZone);
}

/** Keeps what a usual week brings, source by source; none is an answer too. */
export async function saySwingsElsewhere(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.say-swings-elsewhere">, given: z.infer<typeof swingsElsewhereForm>): Promise<void> {
  const { academyId, id: playerId } = player;
  for (const source of SWING_SOURCES) {
    const [weekdays, swingsEach] = [given[`${source}Days`], given[`${source}Swings`]];
    if (weekdays.length > 0 && swingsEach === 0) {
      const problem = "Say how many swings a time, or untick the days.";
      throw new InvalidError(problem, { [`${source}Swings`]: problem });
    }
    const said = { weekdays, swingsEach: weekdays.length > 0 ? swingsEach : 0, saidById: actor.userId, saidAt: now() };
    await tx.swingSource.upsert({ where: { academyId_playerId_source: { academyId, playerId, source } }, create: { academyId, playerId, source, ...said }, update: said });
  }
}

/** Writes down what was swung elsewhere on a day. @returns how many full swings it counts for */
export async function logSwings(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.count-swings">, given: z.infer<typeof logSwingsForm>): Promise<number> {
  const { academyId, id: playerId } = player;
  if (player.hasLeft) throw new ConflictError("This player has left the academy. Nothing more is counted.");
  const today = await todayAt(tx, player);
  const problem = given.day > today ? "That day is still to come. Count it when it is done." : given.day <= daysAfter(today, -LOG_DAYS_BACK) ? (`Swings are written down for the last ${LOG_DAYS_BACK} days.` as const satisfies PlainSentence) : null;
  if (problem) throw new InvalidError(problem, { day: problem });
  const counted = fullSwingsOf(given);
  if (!counted) throw new InvalidError("Write how many swings, as well as you know.", { swings: "Write how many swings, as well as you know." });
  await tx.swingLog.create({ data: { id: newId(), academyId, playerId, day: dayValue(given.day), source: given.source, ...counted, loggedById: actor.userId, loggedAt: now() } });
  return counted.swings;
}

/** Takes a count back; the row stays and counts no more. */
export async function takeBackSwings(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.count-swings">, logId: Id): Promise<void> {
  const taken = await tx.swingLog.updateMany({
    where: { id: logId, academyId: player.academyId, playerId: player.id, takenBackAt: null },
    data: { takenBackAt: now(), takenBackById: actor.userId },
  });
  if (taken.count === 0) throw new NotFoundError("count");
}
