import { buildLibrary } from "@/seed/builders/library";
import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import type { Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { chooseFocus } from "@/lib/domains/observations/actions";
import * as actions from "@/lib/domains/plans/actions";
import * as queries from "@/lib/domains/plans/queries";
import { setHomeSetup } from "@/lib/domains/roster/actions";
import { saySwingsElsewhere } from "@/lib/domains/roster/loads/actions";
import { database } from "@/lib/platform/database";

export let academyId: Id;
export let locationId: Id;
export let headId: Id;
export let coachId: Id;

export const actorFor = async (userId: Id, activeRole: Role) => {
  const actor = await findActor((await buildSession({ academyId, userId, activeRole })).id);
  if (actor.kind !== "person") throw new Error("nobody signed in");
  return actor;
};

/** The academy of these stories, with its library, a head coach and a coach. */
export async function buildHouse(): Promise<void> {
  academyId = (await buildAcademy()).id;
  locationId = (await buildLocation({ academyId })).id;
  await buildLibrary(academyId);
  headId = (await buildUser({ academyId, displayName: "Ada Head", roles: ["head-coach"] })).id;
  coachId = (await buildUser({ academyId, displayName: "Marlow Tessen", roles: ["coach"] })).id;
}

export const HOME = { gear: ["bat", "tee", "net", "foam-ball", "soft-core-ball", "tape", "towel", "helmet"], widthM: 6, lengthM: 8, hasCage: true, partnerCount: 1, adult: "nearby", minutesPerDay: 12, daysPerWeek: 4 } as const;
export const WORDS = { keptWell: "Ines, your load is quiet. Keep that.", oneThing: "The belt goes first, then the foot.", why: "That keeps the chest closed a blink longer.", forFamily: "Ten minutes are enough." };
export const CANARY = "canary-quince-77";

/** A player of twelve with a login, a guardian, a focus and what is at home. */
export async function taught(given: { birthDate?: string; isAlone?: boolean; hasNoFocus?: boolean; hasNoHome?: boolean; complaint?: string; faultId?: string; } = {}) {
  const userId = (await buildUser({ academyId, displayName: "Ines", roles: ["player"] })).id;
  const player = await buildPlayer({ academyId, locationId, userId, givenName: "Ines", birthDate: given.birthDate ?? "2014-05-05" });
  const playerId = player.id;
  await buildAssignment({ academyId, playerId, userId: coachId });
  const guardianId = (await buildUser({ academyId, displayName: "Odile", roles: ["guardian"] })).id;
  if (!given.isAlone) await buildGuardianship({ academyId, playerId, userId: guardianId });
  await buildConsent({ academyId, playerId, recordedById: headId });
  if (given.complaint) await database().complaint.create({ data: { id: newId(), academyId, playerId, part: given.complaint, since: new Date("2026-11-20"), recordedById: coachId } });
  const coach = await actorFor(coachId, "coach");
  const here = { playerId, side: "right" as const };
  if (!given.hasNoHome) await setHomeSetup.as(coach, { playerId, ...HOME, gear: [...HOME.gear] });
  await saySwingsElsewhere.as(coach, { playerId, teamDays: [], lessonsDays: [], gamesDays: [] });
  if (!given.hasNoFocus) await chooseFocus.as(coach, { ...here, faultId: given.faultId ?? "back-foot-overspin" });
  const page = async () => queries.getPlanDraft.as(coach, here);
  return { playerId, userId, guardianId, coach, here, page };
}

/** The same with a draft that may be sent. */
export async function drafted(given: Parameters<typeof taught>[0] = {}) {
  const made = await taught(given);
  const { planId } = (await actions.startPlan.as(made.coach, made.here)).data as { planId: Id };
  const first = (await made.page()).draft?.proposed[0]?.id ?? "";
  await actions.addDrill.as(made.coach, { planId, drillId: first });
  await actions.chooseCue.as(made.coach, { planId, cue: "Send your belt at the pitcher first" });
  await actions.writeNote.as(made.coach, { planId, ...WORDS });
  await actions.writePrivateNote.as(made.coach, { planId, words: CANARY });
  const { id: noteId } = await database().note.findUniqueOrThrow({ where: { planId } });
  return { ...made, planId, noteId, drillId: first };
}
