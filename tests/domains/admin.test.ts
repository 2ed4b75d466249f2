import { describe, expect, test } from "vitest";
import { writeAudit } from "@/lib/access/audit";
import { isPerson, type Person } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId } from "@/lib/core/ids";
import { listAudit } from "@/lib/domains/admin/queries";
import { database, inTransaction } from "@/lib/platform/database";
import { buildAcademy, buildSession, buildUser } from "@/seed/builders/people";

async function admin(): Promise<Person> {
  const { id: academyId } = await buildAcademy();
  const user = await buildUser({ academyId, displayName: "Odile Marsh", roles: ["admin"] });
  const session = await buildSession({ academyId, userId: user.id, activeRole: "admin" });
  const actor = await findActor(session.id);
  if (!isPerson(actor)) throw new Error("nobody");
  return actor;
}

describe("the audit trail", () => {
  test("names the operation and who did it, and the row itself holds identifiers only", async () => {
    const actor = await admin();
    const subjectId = newId();
    await inTransaction((tx) => writeAudit(tx, actor, "roster.edit-player", actor.academyId, subjectId));
    expect((await listAudit.as(actor, {})).rows).toMatchObject([{ operation: "roster.edit-player", actorName: "Odile Marsh", subjectId }]);
    expect(JSON.stringify(await database().auditEntry.findMany({ where: { academyId: actor.academyId } }))).not.toContain("Odile");
  });

  test("is read in pages that miss and repeat nothing, and shows no other academy's", async () => {
    const [actor, other] = [await admin(), await admin()];
    await inTransaction((tx) => writeAudit(tx, other, "roster.edit-player", other.academyId, null));
    await inTransaction(async (tx) => {
      for (let i = 0; i < 53; i++) await writeAudit(tx, actor, "roster.set-home-setup", actor.academyId, null);
    });
    const first = await listAudit.as(actor, {});
    const second = await listAudit.as(actor, { after: first.next ?? "" });
    expect([first.rows.length, second.rows.length, second.next]).toEqual([50, 3, null]);
    expect(new Set([...first.rows, ...second.rows].map(({ id }) => id)).size).toBe(53);
  });

  test("a row is never changed", async () => {
    const actor = await admin();
    await inTransaction((tx) => writeAudit(tx, actor, "roster.edit-player", actor.academyId, null));
    await expect(database().auditEntry.updateMany({ where: { academyId: actor.academyId }, data: { operation: "other" } })).rejects.toThrow(/never changed/);
  });
});
