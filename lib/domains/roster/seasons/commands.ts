import type { z } from "zod";
import type { Granted, Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { dayValue } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { PlayerSubject } from "../policy";
import { seasonProblem, type SaidSeason } from "./rules";
import type { setSeasonsForm } from "./schema";

async function writeSeason(tx: Transaction, actor: Person, playerIds: readonly Id[], given: SaidSeason): Promise<void> {
  const problem = seasonProblem(given, actor.today);
  if (problem) throw new InvalidError(problem.words, { [problem.field]: problem.words });
  const { season, from, until, firstGameOn } = given;
  const said = { season, from: dayValue(from), until: until && dayValue(until), firstGameOn: firstGameOn && dayValue(firstGameOn), setById: actor.userId, setAt: now() };
  await tx.playerSeason.createMany({ data: playerIds.map((playerId) => ({ ...said, id: newId(), academyId: actor.academyId, playerId })) });
}

/** Says the season of one player. What was said before stays on the record. */
export async function setSeason(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.set-season">, given: SaidSeason): Promise<void> {
  if (player.hasLeft) throw new ConflictError("This player has left the academy. Nothing was changed.");
  await writeSeason(tx, actor, [player.id], given);
}

/** Says the same season for many players: for all of them, or for none. @returns for how many */
export async function setSeasons(tx: Transaction, actor: Person, academy: Granted<Subject, "roster.plan-seasons">, given: z.infer<typeof setSeasonsForm>): Promise<number> {
  const { playerIds } = given;
  const found = await tx.player.findMany({ where: { academyId: academy.academyId, id: { in: playerIds } }, select: { leftAt: true } });
  if (found.length !== playerIds.length) throw new NotFoundError("player");
  if (found.some(({ leftAt }) => leftAt !== null)) throw new ConflictError("One of these players has left the academy. Look at the page again; nothing was changed.");
  await writeSeason(tx, actor, playerIds, given);
  return playerIds.length;
}
