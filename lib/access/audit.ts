import { newId } from "@/lib/core/ids";
import type { Transaction } from "@/lib/platform/database";
import { now } from "@/lib/platform/clock";
import { isPerson, type Actor } from "./actor";

/** Writes that something was done, in the transaction that did it. Identifiers only. */
export async function writeAudit(tx: Transaction, actor: Actor, operation: string, academyId: string, subjectId: string | null): Promise<void> {
  await tx.auditEntry.create({
    data: { id: newId(), academyId, at: now(), operation, actorId: isPerson(actor) ? actor.userId : null, subjectId },
  });
}
