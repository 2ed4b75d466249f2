import { createHash } from "node:crypto";
import type { Id } from "@/lib/core/ids";
import type { Database, Prisma } from "@/lib/platform/database";
import type { ChildSubject, UserSubject } from "./policy";

/** Sessions that are open at an instant. */
export function openSessions(at: Date): Prisma.SessionWhereInput {
  return { revokedAt: null, expiresAt: { gt: at } };
}

/** Role grants that hold on a day. */
export function roleHolds(day: Date): { from: { lte: Date }; OR: ({ until: null } | { until: { gt: Date } })[] } {
  return { from: { lte: day }, OR: [{ until: null }, { until: { gt: day } }] };
}

export async function findUserSubject(db: Database, academyId: Id, userId: Id): Promise<UserSubject | null> {
  return db.user.findFirst({ where: { id: userId, academyId }, select: { id: true, academyId: true } });
}

export async function findChildSubject(db: Database, academyId: Id, playerId: Id): Promise<ChildSubject | null> {
  return db.player.findFirst({ where: { id: playerId, academyId, leftAt: null }, select: { id: true, academyId: true, userId: true } });
}

/** What is kept of a link's secret, or of a name that is only counted: SHA-256, hex. */
export function hashOfSecret(secret: string): string {
  return createHash("sha256").update(secret).digest("hex");
}
