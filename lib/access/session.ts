import { database, type Database } from "@/lib/platform/database";
import { dayValue } from "@/lib/core/days";
import { now, todayIn } from "@/lib/platform/clock";
import { isLanguage, type Language } from "@/lib/core/words/languages";
import { NOBODY, ROLES, type Actor, type Role } from "./actor";

/**
 * Who a session is today: read from its row, in one query, so that a role that ends, a person who is deactivated or a
 * session that is closed counts at once.
 * @param unlessChosen what somebody of a family reads in who never chose a language
 */
export async function findActor(sessionId: string, db: Database = database(), unlessChosen: Language = "en"): Promise<Actor> {
  const session = await db.session.findUnique({
    where: { id: sessionId },
    include: {
      user: {
        include: {
          academy: { select: { timeZone: true } },
          roles: true,
          guardianships: true,
          assignments: true,
          player: { select: { id: true, leftAt: true } },
        },
      },
    },
  });
  if (!session || session.revokedAt || session.expiresAt <= now() || session.user.deactivatedAt) return NOBODY;
  const { user } = session;
  const today = todayIn(user.academy.timeZone);
  const holds = (span: { from: Date; until: Date | null }) => span.from <= dayValue(today) && (span.until === null || span.until > dayValue(today));
  const roles = ROLES.filter((role) => user.roles.some((grant) => grant.role === role && holds(grant)));
  const role = roles.find((held) => held === session.activeRole) ?? roles[0];
  if (!role) return NOBODY;
  return {
    kind: "person",
    sessionId: session.id,
    userId: user.id,
    academyId: user.academyId,
    name: user.displayName,
    role,
    language: isFamilyRole(role) ? (isLanguage(user.language) ? user.language : unlessChosen) : "en",
    roles,
    today,
    timeZone: user.academy.timeZone,
    ownPlayerId: isPlayerRole(role) && user.player && !user.player.leftAt ? user.player.id : null,
    wardIds: role === "guardian" ? user.guardianships.filter(holds).map((span) => span.playerId) : [],
    coachedPlayerIds: role === "coach" || role === "head-coach" ? user.assignments.filter(holds).map((span) => span.playerId) : [],
  };
}

function isFamilyRole(role: Role): boolean {
  return role === "player" || role === "guardian";
}

function isPlayerRole(role: Role): boolean {
  return role === "player";
}
