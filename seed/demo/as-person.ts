import { isPerson, type Person, type Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import { buildSession } from "../builders/people";

/** Somebody of the academy as the program knows a signed-in person, so that the demo is made by the same rules. */
export async function asPerson(academyId: Id, userId: Id, role: Role): Promise<Person> {
  const session = await buildSession({ academyId, userId, activeRole: role });
  const actor = await findActor(session.id);
  await database().session.delete({ where: { id: session.id } });
  if (!isPerson(actor)) throw new Error(`the demo's ${role} cannot act`);
  return actor;
}
