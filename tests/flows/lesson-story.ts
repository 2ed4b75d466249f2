import { ask } from "./fixtures";

/** A coach of this flow's own with three players who may be filmed: other flows' pages stay as they are. */
export async function ownCoach(userName: string, names: readonly string[]): Promise<{ readonly playerIds: readonly string[] }> {
  const [house] = await ask<{ academyId: string; locationId: string; officeId: string }>(
    `SELECT l."academyId", l."id" AS "locationId", g."userId" AS "officeId" FROM "Location" l JOIN "RoleGrant" g ON g."academyId" = l."academyId" AND g."role" = 'admin' ORDER BY l."id" LIMIT 1`,
  );
  if (!house) throw new Error("the demo has no academy");
  const { academyId, locationId, officeId } = house;
  const userId = crypto.randomUUID();
  await ask(`INSERT INTO "User" ("id", "academyId", "displayName", "userName") VALUES ($1, $2, $3, $4)`, [userId, academyId, "Tamsin Orle", userName]);
  await ask(`INSERT INTO "RoleGrant" ("id", "academyId", "userId", "role", "from") VALUES ($1, $2, $3, 'coach', DATE '2026-01-01')`, [crypto.randomUUID(), academyId, userId]);
  const playerIds: string[] = [];
  for (const givenName of names) {
    const playerId = crypto.randomUUID();
    playerIds.push(playerId);
    await ask(`INSERT INTO "Player" ("id", "academyId", "locationId", "givenName", "familyName", "birthDate", "sport", "bats") VALUES ($1, $2, $3, $4, 'Orlewick', DATE '2013-05-05', 'baseball', 'right')`, [playerId, academyId, locationId, givenName]);
    await ask(`INSERT INTO "BattingSide" ("academyId", "playerId", "side") VALUES ($1, $2, 'right')`, [academyId, playerId]);
    await ask(`INSERT INTO "Assignment" ("id", "academyId", "playerId", "userId", "from") VALUES ($1, $2, $3, $4, DATE '2026-01-01')`, [crypto.randomUUID(), academyId, playerId, userId]);
    await ask(
      `INSERT INTO "Consent" ("id", "academyId", "playerId", "use", "recordedById", "method", "wordsVersion", "givenOn", "validUntil") VALUES ($1, $2, $3, 'lesson', $4, 'paper', '1', DATE '2026-06-01', DATE '2027-05-01')`,
      [crypto.randomUUID(), academyId, playerId, officeId],
    );
  }
  return { playerIds };
}
