import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { InvalidError } from "@/lib/core/errors";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import type { LocationSubject } from "./policy";
import { hoursProblem, type ContactHours } from "./rules";

/** Keeps the hours of a location. What waits already goes when it was said to go, unless it is quiet then. */
export async function setContactHours(tx: Transaction, actor: Person, location: Granted<LocationSubject, "messages.set-hours">, hours: ContactHours): Promise<void> {
  const problem = hoursProblem(hours);
  if (problem) throw new InvalidError(problem, { closesHour: problem });
  const { academyId, id: locationId } = location;
  const data = { ...hours, changedById: actor.userId, changedAt: now() };
  await tx.contactHours.upsert({ where: { academyId_locationId: { academyId, locationId } }, create: { academyId, locationId, ...data }, update: data });
}
