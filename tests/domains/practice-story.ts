import type { Person, Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { dayValue } from "@/lib/core/days";
import { database } from "@/lib/platform/database";
import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildSwing } from "@/seed/builders/swings";

/** What only coaches see: it may stand nowhere else. */
export const CANARY = "canary-quince-77";

const DRILLS = [
  { name: "Sideways push and stop", setup: "dry", timesPerDay: 12, swingsPerDay: 0, daysPerWeekMost: null },
  { name: "Back-heel lane tee", setup: "tee", timesPerDay: 18, swingsPerDay: 18, daysPerWeekMost: null },
  { name: "Slow hip bridge", setup: "strength", timesPerDay: 10, swingsPerDay: 0, daysPerWeekMost: 2 },
] as const;

/** A sent plan with its note in both parts, as rows only; drills: dry, tee, strength. */
export async function sentPlan(given: { academyId: Id; playerId: Id; authorId: Id; side?: "right" | "left"; startsOn?: string; endsOn?: string; sentAt?: string; clipId?: Id; isDraft?: boolean }) {
  const { academyId, playerId, authorId, side = "right" } = given;
  const ofSide = { academyId, playerId, side, editionId: newId() };
  const [focusId, planId, noteId] = [newId(), newId(), newId()];
  const cue = "Send your belt at the pitcher first";
  const sentAt = given.isDraft ? null : new Date(given.sentAt ?? "2026-11-20T20:00:00Z");
  const endsOn = dayValue(given.endsOn ?? "2026-12-09");
  await database().focus.create({ data: { ...ofSide, id: focusId, faultId: `fault-${focusId}`, state: "ended", chosenById: authorId } });
  await database().plan.create({
    data: {
      ...ofSide, id: planId, focusId, level: "11-12", minutesPerDay: 12, daysPerWeek: 4, startsOn: dayValue(given.startsOn ?? "2026-11-20"), endsOn, cue,
      createdById: authorId, sentAt, state: sentAt ? "sent" : "draft",
    },
  });
  const drillIds: Id[] = [];
  for (const [position, { name, setup, daysPerWeekMost, ...dose }] of DRILLS.entries()) {
    const words = { v: 1, name, setup, equipment: [], space: "", steps: ["Push, stop, count."], cue: null, safety: [], cautions: ["Anything hurts: stop and tell an adult."], worked: "It stays still.", daysPerWeekMost };
    const { id } = await database().planDrill.create({ data: { id: newId(), academyId, planId, position, drillId: `drill-${position}`, words, why: "", minutesPerDay: 4, ...dose } });
    drillIds.push(id);
  }
  await database().note.create({
    data: {
      ...ofSide, id: noteId, planId, authorId, cue, keptWell: "Your load is quiet.", oneThing: `Belt first, ${side}`, why: "The chest stays closed.", forFamily: "Short beats long.",
      nextCheckOn: endsOn, clipId: given.clipId, frameIndex: given.clipId ? 96 : null, marks: { v: 1, widthPx: 1280, heightPx: 720, shapes: [{ v: 1, kind: "ring", cx: 640, cy: 500, rx: 60, ry: 40 }] }, sentAt,
      private: { create: { words: CANARY } },
    },
  });
  const [dryId, teeId, strengthId] = drillIds as [Id, Id, Id];
  return { planId, noteId, dryId, teeId, strengthId };
}

export async function actorOf(user: { id: Id; academyId: Id }, activeRole: Role): Promise<Person> {
  const actor = await findActor((await buildSession({ academyId: user.academyId, userId: user.id, activeRole })).id);
  if (actor.kind !== "person") throw new Error("nobody signed in");
  return actor;
}

/** A family: a player of twelve, two guardians, a coach, a consent, one sent plan with a still. */
export async function family(given: { birthDate?: string; timeZone?: string; startsOn?: string; endsOn?: string; bats?: "right" | "both" } = {}) {
  const { id: academyId } = await buildAcademy({ timeZone: given.timeZone });
  const { id: locationId } = await buildLocation({ academyId, timeZone: given.timeZone });
  const someone = async (role: Role, displayName: string) => buildUser({ academyId, roles: [role], displayName });
  const users = {
    player: await someone("player", "Ines Corvane"), odile: await someone("guardian", "Odile Corvane"), bastien: await someone("guardian", "Bastien Corvane"),
    coach: await someone("coach", "Marlow Tessen"), head: await someone("head-coach", "Adair Linsky"),
  };
  const { id: playerId } = await buildPlayer({ academyId, locationId, userId: users.player.id, givenName: "Ines", familyName: "Corvane", birthDate: given.birthDate ?? "2014-05-05", bats: given.bats });
  await buildAssignment({ academyId, playerId, userId: users.coach.id });
  for (const guardian of [users.odile, users.bastien]) await buildGuardianship({ academyId, playerId, userId: guardian.id });
  await buildConsent({ academyId, playerId, recordedById: users.odile.id, givenById: users.odile.id });
  const swing = await buildSwing({ academyId, playerId, createdById: users.coach.id });
  const clipId = swing.clips[0]!.id;
  const plan = await sentPlan({ academyId, playerId, authorId: users.coach.id, clipId, startsOn: given.startsOn, endsOn: given.endsOn });
  return {
    academyId, playerId, users, clipId, ...plan,
    player: await actorOf(users.player, "player"), odile: await actorOf(users.odile, "guardian"), coach: await actorOf(users.coach, "coach"), head: await actorOf(users.head, "head-coach"),
  };
}
