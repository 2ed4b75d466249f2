import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import { readAudit } from "./policy";
import { listAuditForm } from "./schema";
import { instantWords, type AuditPage } from "./view";

const PAGE_ROWS = 50;

/** What was done in the academy, newest first. */
export const listAudit = defineQuery({
  name: "admin.list-audit",
  input: listAuditForm,
  policy: mayInAcademy<z.infer<typeof listAuditForm>, "audit.read">(readAudit),
  run: async ({ actor, input, db }): Promise<AuditPage> => {
    const found = await db.auditEntry.findMany({
      where: { academyId: actor.academyId },
      orderBy: [{ at: "desc" }, { id: "desc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
    });
    const ids = [...new Set(found.map((row) => row.actorId).filter((id) => id !== null))];
    const users = await db.user.findMany({ where: { academyId: actor.academyId, id: { in: ids } }, select: { id: true, displayName: true } });
    const names = new Map(users.map((user) => [user.id, user.displayName]));
    const rows = found.slice(0, PAGE_ROWS).map((row) => ({
      id: row.id,
      at: instantWords(row.at.toISOString(), actor.timeZone),
      operation: row.operation,
      actorName: row.actorId ? (names.get(row.actorId) ?? null) : null,
      subjectId: row.subjectId,
    }));
    return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});
