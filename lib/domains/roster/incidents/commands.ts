import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { InvalidError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { daysAfter, dayValue } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { refuseLeft, todayAt, whoHears, writeNotices } from "../commands";
import type { PlayerSubject } from "../policy";
import { NOTED_DAYS_BACK } from "./rules";
import type { noteIncidentForm } from "./schema";

/** Keeps what happened and stops swings at once: note, pause and notices are one transaction. @returns the pause */
export async function noteIncident(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.note-incident">, given: z.infer<typeof noteIncidentForm>): Promise<Id> {
  refuseLeft(player);
  const { academyId, id: playerId } = player;
  const { kind, happenedOn, words, firstAid } = given;
  const today = await todayAt(tx, player);
  const problem = happenedOn > today ? "That day is still to come." : happenedOn <= daysAfter(today, -NOTED_DAYS_BACK) ? `An incident is noted within ${NOTED_DAYS_BACK} days.` : null;
  if (problem) throw new InvalidError(problem, { happenedOn: problem });
  // A blow to the head is one to the head, whatever else the form was left at.
  const part = kind === "head-blow" ? "head" : given.part;
  const incidentId = newId();
  await tx.incident.create({ data: { id: incidentId, academyId, playerId, kind, part, happenedOn: dayValue(happenedOn), words, firstAid, notedById: actor.userId, notedAt: now() } });
  const pause = await tx.pause.create({ data: { id: newId(), academyId, playerId, incidentId, startedAt: now() } });
  await writeNotices(tx, player, await whoHears(tx, actor, player), "incident-noted", pause.id);
  return pause.id;
}
