import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import type { Actor, Role } from "@/lib/access/actor";
import { NOBODY } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";

/**
 * The columns of the access table: every role in every relation to one player, Pia. Who stands in a column is made by
 * the same code that signs people in, so a lapsed role or assignment is judged as it is in life.
 */
export const COLUMNS = [
  "nobody", // not signed in
  "admin", // of Pia's academy
  "head", // head coach of Pia's academy
  "coach", // assigned to Pia today
  "otherCoach", // of the same academy, not assigned to her
  "formerCoach", // was assigned to her until yesterday
  "goneCoach", // assigned to her, but deactivated
  "player", // Pia herself
  "otherPlayer", // another player of the academy
  "guardian", // of Pia
  "otherGuardian", // of another player of the academy
  "formerGuardian", // of Pia until yesterday
  "adminElsewhere", // of another academy
  "headElsewhere",
  "coachElsewhere",
] as const;
export type Column = (typeof COLUMNS)[number];

export interface Cast {
  readonly academyId: Id;
  readonly locationId: Id;
  /** Pia, twelve, bats right; her consent to film for lessons is in force. */
  readonly playerId: Id;
  readonly otherPlayerId: Id;
  readonly userIds: Readonly<Record<Exclude<Column, "nobody">, Id>>;
  readonly actors: Readonly<Record<Column, Actor>>;
}

const YESTERDAY = "2026-11-24";

export async function buildCast(): Promise<Cast> {
  const { id: academyId } = await buildAcademy();
  const { id: elsewhere } = await buildAcademy({ name: "Elsewhere" });
  const { id: locationId } = await buildLocation({ academyId });
  const userOf = async (role: Role, given: { academyId?: Id; deactivatedAt?: Date } = {}) => (await buildUser({ academyId, roles: [role], ...given })).id;

  const userIds = {
    admin: await userOf("admin"),
    head: await userOf("head-coach"),
    coach: await userOf("coach"),
    otherCoach: await userOf("coach"),
    formerCoach: await userOf("coach"),
    goneCoach: await userOf("coach", { deactivatedAt: new Date("2026-11-01T00:00:00Z") }),
    player: await userOf("player"),
    otherPlayer: await userOf("player"),
    guardian: await userOf("guardian"),
    otherGuardian: await userOf("guardian"),
    formerGuardian: await userOf("guardian"),
    adminElsewhere: await userOf("admin", { academyId: elsewhere }),
    headElsewhere: await userOf("head-coach", { academyId: elsewhere }),
    coachElsewhere: await userOf("coach", { academyId: elsewhere }),
  };
  const { id: playerId } = await buildPlayer({ academyId, locationId, userId: userIds.player, givenName: "Pia", birthDate: "2014-05-05" });
  const { id: otherPlayerId } = await buildPlayer({ academyId, locationId, userId: userIds.otherPlayer, givenName: "Otto" });

  await buildAssignment({ academyId, playerId, userId: userIds.coach });
  await buildAssignment({ academyId, playerId, userId: userIds.goneCoach });
  await buildAssignment({ academyId, playerId, userId: userIds.formerCoach, until: YESTERDAY });
  await buildAssignment({ academyId, playerId: otherPlayerId, userId: userIds.otherCoach });
  await buildGuardianship({ academyId, playerId, userId: userIds.guardian });
  await buildGuardianship({ academyId, playerId, userId: userIds.formerGuardian, until: YESTERDAY });
  await buildGuardianship({ academyId, playerId: otherPlayerId, userId: userIds.otherGuardian });
  await buildConsent({ academyId, playerId, recordedById: userIds.admin, givenById: userIds.guardian });

  const roleOf: Record<keyof typeof userIds, Role> = {
    admin: "admin", head: "head-coach", coach: "coach", otherCoach: "coach", formerCoach: "coach", goneCoach: "coach",
    player: "player", otherPlayer: "player", guardian: "guardian", otherGuardian: "guardian", formerGuardian: "guardian",
    adminElsewhere: "admin", headElsewhere: "head-coach", coachElsewhere: "coach",
  };
  const actors = { nobody: NOBODY } as Record<Column, Actor>;
  for (const column of COLUMNS) {
    if (column === "nobody") continue;
    const home = column.endsWith("Elsewhere") ? elsewhere : academyId;
    const session = await buildSession({ academyId: home, userId: userIds[column], activeRole: roleOf[column] });
    actors[column] = await findActor(session.id);
  }
  return { academyId, locationId, playerId, otherPlayerId, userIds, actors };
}
