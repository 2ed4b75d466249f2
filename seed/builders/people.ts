import { newId, type Id } from "@/lib/core/ids";
import type { Role } from "@/lib/access/actor";
import { dayValue } from "@/lib/core/days";
import { database } from "@/lib/platform/database";

/** Builders make what is asked for and every parent that is missing. The demo and the tests use the same ones. */
let counter = 0;
const nth = () => ++counter;

export async function buildAcademy(given: { name?: string; timeZone?: string } = {}) {
  return database().academy.create({
    data: { id: newId(), name: given.name ?? "Quillet Yard", timeZone: given.timeZone ?? "America/Chicago" },
  });
}

export async function buildLocation(given: { academyId?: Id; name?: string; timeZone?: string } = {}) {
  const academyId = given.academyId ?? (await buildAcademy()).id;
  return database().location.create({
    data: { id: newId(), academyId, name: given.name ?? "The Yard", timeZone: given.timeZone ?? "America/Chicago" },
  });
}

export async function buildUser(given: {
  academyId?: Id;
  displayName?: string;
  email?: string | null;
  userName?: string | null;
  passwordHash?: string | null;
  roles?: readonly Role[];
  from?: string;
  until?: string | null;
  deactivatedAt?: Date | null;
}) {
  const academyId = given.academyId ?? (await buildAcademy()).id;
  const number = nth();
  const email = given.email === undefined && !given.userName ? `person${number}.${crypto.randomUUID().slice(0, 8)}@example.test` : given.email;
  return database().user.create({
    data: {
      id: newId(),
      academyId,
      displayName: given.displayName ?? `Person ${number}`,
      email,
      userName: given.userName,
      passwordHash: given.passwordHash,
      deactivatedAt: given.deactivatedAt,
      roles: {
        create: (given.roles ?? []).map((role) => ({
          id: newId(),
          role,
          from: dayValue(given.from ?? "2026-01-01"),
          until: given.until ? dayValue(given.until) : null,
        })),
      },
    },
  });
}

export async function buildPlayer(given: {
  academyId?: Id;
  locationId?: Id;
  userId?: Id | null;
  givenName?: string;
  familyName?: string;
  birthDate?: string;
  sport?: "baseball" | "softball";
  bats?: "right" | "left" | "both";
  heightM?: number | null;
  isSlapper?: boolean;
}) {
  const academyId = given.academyId ?? (await buildAcademy()).id;
  const locationId = given.locationId ?? (await buildLocation({ academyId })).id;
  const bats = given.bats ?? "right";
  const sides = bats === "both" ? (["right", "left"] as const) : ([bats] as const);
  return database().player.create({
    data: {
      id: newId(),
      academyId,
      locationId,
      userId: given.userId,
      givenName: given.givenName ?? `Player${nth()}`,
      familyName: given.familyName ?? "Tester",
      birthDate: dayValue(given.birthDate ?? "2014-05-05"),
      sport: given.sport ?? "baseball",
      bats,
      heightM: given.heightM,
      sides: { create: sides.map((side) => ({ side, isSlapper: side === "left" && (given.isSlapper ?? false) })) },
    },
  });
}

export async function buildAssignment(given: { academyId: Id; playerId: Id; userId: Id; from?: string; until?: string | null }) {
  const { academyId, playerId, userId } = given;
  return database().assignment.create({
    data: { id: newId(), academyId, playerId, userId, from: dayValue(given.from ?? "2026-01-01"), until: given.until ? dayValue(given.until) : null },
  });
}

export async function buildGuardianship(given: { academyId: Id; playerId: Id; userId: Id; relation?: string; from?: string; until?: string | null }) {
  const { academyId, playerId, userId } = given;
  return database().guardianship.create({
    data: {
      id: newId(),
      academyId,
      playerId,
      userId,
      relation: given.relation ?? "parent",
      from: dayValue(given.from ?? "2026-01-01"),
      until: given.until ? dayValue(given.until) : null,
    },
  });
}

export async function buildConsent(given: {
  academyId: Id;
  playerId: Id;
  recordedById: Id;
  givenById?: Id | null;
  use?: "lesson" | "staff-training" | "public";
  givenOn?: string;
  validUntil?: string;
}) {
  const { academyId, playerId, recordedById } = given;
  return database().consent.create({
    data: {
      id: newId(),
      academyId,
      playerId,
      recordedById,
      givenById: given.givenById,
      use: given.use ?? "lesson",
      method: "paper",
      wordsVersion: "1",
      givenOn: dayValue(given.givenOn ?? "2026-09-01"),
      validUntil: dayValue(given.validUntil ?? "2027-08-31"),
    },
  });
}

export async function buildSession(given: { academyId: Id; userId: Id; activeRole: Role; expiresAt?: Date }) {
  const { academyId, userId, activeRole } = given;
  return database().session.create({
    data: { id: newId(), academyId, userId, activeRole, device: "a test", expiresAt: given.expiresAt ?? new Date("2030-01-01T00:00:00Z") },
  });
}
