import pg from "pg";
import { beforeAll, describe, expect, test, vi } from "vitest";
import { isPerson, type Person, type Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { dayValue } from "@/lib/core/days";
import { newId, type Id } from "@/lib/core/ids";
import * as admin from "@/lib/domains/admin/queries";
import * as cutting from "@/lib/domains/clips/cutting/queries";
import * as lesson from "@/lib/domains/clips/lesson/queries";
import * as owner from "@/lib/domains/clips/owner/queries";
import * as clips from "@/lib/domains/clips/queries";
import * as identity from "@/lib/domains/identity/queries";
import * as library from "@/lib/domains/library/queries";
import * as measurement from "@/lib/domains/measurement/queries";
import * as observations from "@/lib/domains/observations/queries";
import * as sheet from "@/lib/domains/observations/sheet/queries";
import * as plans from "@/lib/domains/plans/queries";
import * as practice from "@/lib/domains/practice/queries";
import * as roster from "@/lib/domains/roster/queries";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildSwing } from "@/seed/builders/swings";
import { buildModel } from "./model-story";

interface House {
  readonly academyId: Id;
  readonly locationId: Id;
  readonly editionId: Id;
  readonly playerId: Id;
  readonly hitterId: Id;
  readonly swingId: Id;
  readonly modelId: Id;
  readonly actors: Readonly<Record<"coach" | "guardian" | "admin", Person>>;
}

async function actorOf(academyId: Id, userId: Id, activeRole: Role): Promise<Person> {
  const actor = await findActor((await buildSession({ academyId, userId, activeRole })).id);
  if (!isPerson(actor)) throw new Error("nobody");
  return actor;
}

async function build(): Promise<House> {
  const { id: academyId } = await buildAcademy();
  const { id: locationId } = await buildLocation({ academyId });
  const { id: editionId } = await buildLibrary(academyId);
  const [coach, guardian, office] = [
    await buildUser({ academyId, roles: ["coach"] }),
    await buildUser({ academyId, roles: ["guardian"] }),
    await buildUser({ academyId, roles: ["admin"] }),
  ];
  const { id: playerId } = await buildPlayer({ academyId, locationId, bats: "right" });
  await database().homeSetup.create({
    data: { academyId, playerId, gear: ["bat", "tee", "net", "ball", "towel", "tape"], widthM: 5, lengthM: 7, hasCage: false, partnerCount: 0, adult: "nearby", minutesPerDay: 12, daysPerWeek: 3 },
  });
  await join(academyId, playerId, coach.id, guardian.id, office.id);
  const { id: swingId } = await buildSwing({ academyId, playerId, createdById: coach.id });
  const { id: hitterId } = await buildPlayer({ academyId, locationId, bats: "right" });
  for (const use of ["lesson", "staff-training"] as const) await buildConsent({ academyId, playerId: hitterId, recordedById: office.id, use });
  const { id: modelId } = await keepOneModel(academyId, hitterId, coach.id);
  const house = { academyId, locationId, editionId, playerId, swingId, modelId, hitterId };
  await grow(house, 3, { coach: coach.id, guardian: guardian.id, admin: office.id });
  // Only now, so that each actor knows every player that is theirs.
  return { ...house, actors: await actorsOf(academyId, { coach: coach.id, guardian: guardian.id, admin: office.id }) };
}

async function keepOneModel(academyId: Id, hitterId: Id, userId: Id) {
  const swing = await buildSwing({ academyId, playerId: hitterId, createdById: userId });
  return buildModel({ academyId, playerId: hitterId, swingId: swing.id, userId });
}

const actorsOf = async (academyId: Id, ids: Readonly<Record<"coach" | "guardian" | "admin", Id>>) => ({
  coach: await actorOf(academyId, ids.coach, "coach"),
  guardian: await actorOf(academyId, ids.guardian, "guardian"),
  admin: await actorOf(academyId, ids.admin, "admin"),
});

async function join(academyId: Id, playerId: Id, coachId: Id, guardianId: Id, officeId: Id): Promise<void> {
  await buildAssignment({ academyId, playerId, userId: coachId });
  await buildGuardianship({ academyId, playerId, userId: guardianId });
  await buildConsent({ academyId, playerId, recordedById: officeId, givenById: guardianId });
}

/** More of everything: players, swings with calls and points, foci with sent notes and logs, notices, people, audit, proposals. */
async function grow({ academyId, locationId, editionId, playerId, swingId, hitterId }: Omit<House, "actors">, count: number, ids: Readonly<Record<"coach" | "guardian" | "admin", Id>>): Promise<void> {
  const db = database();
  const { clips: known } = await db.swing.findUniqueOrThrow({ where: { id: swingId }, include: { clips: true } });
  for (let i = 0; i < count; i++) {
    const { id: other } = await buildPlayer({ academyId, locationId, bats: "right" });
    await join(academyId, other, ids.coach, ids.guardian, ids.admin);
    await keepOneModel(academyId, hitterId, ids.coach);
    await buildSwing({ academyId, playerId: other, createdById: ids.coach });
    const swing = await buildSwing({ academyId, playerId, createdById: ids.coach });
    await db.observation.create({ data: { id: newId(), academyId, swingId: swing.id, faultId: "barrel-drag", state: "seen", source: "eye", editionId, calledById: ids.coach } });
    const frameIndex = 10 + (await db.clipPoint.count({ where: { clipId: known[0]?.id } }));
    await db.clipPoint.create({ data: { academyId, clipId: known[0]?.id ?? "", frameIndex, point: "kn_f", source: "placed", xPx: 100, yPx: 100 } });
    const mark = { id: newId(), academyId, clipId: known[0]?.id ?? "", frameIndex, shape: { v: 1, kind: "ring", cx: 9, cy: 9, rx: 3, ry: 3 }, createdById: ids.coach };
    await db.mark.create({ data: mark });
    await sendNote(academyId, editionId, playerId, ids.coach, "ended");
    await sendNote(academyId, editionId, other, ids.coach, "sent");
    await buildUser({ academyId, roles: ["coach"] });
    await db.notice.create({ data: { id: newId(), academyId, userId: ids.guardian, playerId, kind: "note-sent", subjectId: newId() } });
    await db.auditEntry.create({ data: { id: newId(), academyId, operation: "roster.add-player", actorId: ids.admin, subjectId: other } });
    const patch = { name: { was: "A", becomes: "B" } };
    await db.proposal.create({ data: { id: newId(), academyId, kind: "drill", recordId: "mirror-load", patch, reason: "said more plainly", baseEditionId: editionId, proposedById: ids.coach, state: "open" } });
  }
}

async function sendNote(academyId: Id, editionId: Id, playerId: Id, coachId: Id, state: "sent" | "ended"): Promise<void> {
  const db = database();
  const ofSide = { academyId, playerId, side: "right", editionId };
  const isNow = state === "sent";
  const focus = await db.focus.create({ data: { id: newId(), ...ofSide, faultId: "barrel-drag", state: isNow ? "active" : "ended", slot: isNow ? 1 : null, chosenById: coachId } });
  const words = { v: 1, name: "Mirror load check", setup: "dry", equipment: [], space: "2 x 2 m", steps: ["Stand."], cue: null, safety: [], worked: "Eight of eight.", cautions: [], daysPerWeekMost: null };
  const plan = await db.plan.create({
    data: {
      id: newId(), ...ofSide, focusId: focus.id, level: "11-12", minutesPerDay: 12, daysPerWeek: 3, startsOn: dayValue("2026-11-20"), endsOn: dayValue("2026-12-04"),
      cue: "Belt first", state, createdById: coachId, sentAt: new Date("2026-11-20T15:00:00Z"),
    },
  });
  const drill = await db.planDrill.create({ data: { id: newId(), academyId, planId: plan.id, position: 1, drillId: "mirror-load", words, why: "First.", timesPerDay: 8, swingsPerDay: 0, minutesPerDay: 4 } });
  await db.practiceLog.create({ data: { id: newId(), academyId, playerId, planDrillId: drill.id, day: dayValue("2026-11-24"), times: 8, swings: 0, loggedById: coachId } });
  await db.note.create({
    data: {
      id: newId(), ...ofSide, planId: plan.id, authorId: coachId, keptWell: "Quiet load.", oneThing: "Belt first.", why: "Then the foot.", cue: "Belt first", forFamily: "",
      nextCheckOn: dayValue("2026-12-04"), marks: [], sentAt: new Date("2026-11-20T15:00:00Z"),
    },
  });
}

let house: House;
beforeAll(async () => {
  house = await build();
});

/** How many statements the database is asked, by page query. */
async function countAll(): Promise<Record<string, number>> {
  const { playerId, swingId, modelId, actors } = house;
  const { coach, guardian, admin: office } = actors;
  const side = "right" as const;
  const asked: Record<string, () => Promise<unknown>> = {
    "cage day": () => observations.listCageDay.as(coach, {}),
    "homework of many": async () => practice.listHomeworkCounts.as(coach, { playerIds: [...coach.coachedPlayerIds] }),
    players: () => roster.listPlayers.as(coach, {}),
    "a player's overview": () => observations.getPlayerOverview.as(coach, { playerId, side }),
    "a player's swings": () => clips.listSwings.as(coach, { playerId }),
    "what first": () => observations.getWhatFirst.as(coach, { playerId, side }),
    "a swing": () => clips.getSwing.as(coach, { swingId }),
    "a swing's readings": () => measurement.getSwingReadings.as(coach, { swingId }),
    "a swing's clips to sort": () => owner.getSwingToSort.as(coach, { swingId }),
    "a film to cut": async () => cutting.getFilmToCut.as(coach, { clipId: (await database().clip.findFirstOrThrow({ where: { swingId }, select: { id: true } })).id }),
    "a group lesson's players": () => lesson.listLessonPlayers.as(coach, {}),
    "a person's own uploads": () => lesson.listOwnUploads.as(coach, {}),
    "swings beside each other": () => measurement.getSwingsBeside.as(coach, { swingId }),
    "a swing's comparable readings": () => measurement.listComparableReadings.as(coach, { swingId }),
    "a checkpoint sheet": () => sheet.getCheckpointSheet.as(coach, { swingId }),
    "a checkpoint sheet with a model": () => sheet.getCheckpointSheet.as(coach, { swingId, modelId }),
    plan: () => plans.getPlanDraft.as(coach, { playerId, side }),
    "sent notes": () => plans.listSentNotes.as(guardian, { playerId }),
    "the family's children": () => roster.getFamilyPlayers.as(guardian, {}),
    today: () => practice.getToday.as(guardian, { playerId }),
    "for parents": () => practice.getParentsPage.as(guardian, { playerId }),
    notices: () => roster.listNotices.as(guardian, {}),
    roster: () => roster.listPlayers.as(office, {}),
    "a player's record": () => roster.getPlayerRecord.as(office, { playerId }),
    people: () => identity.listPeople.as(office, {}),
    audit: () => admin.listAudit.as(office, {}),
    library: () => library.getLibraryIndex.as(coach, {}),
    proposals: () => library.listProposals.as(coach, {}),
    editions: () => library.listEditions.as(coach, {}),
  };
  const counts: Record<string, number> = {};
  for (const [name, ask] of Object.entries(asked)) {
    // Once for what is kept in memory, then counted.
    await ask();
    const spy = vi.spyOn(pg.Client.prototype, "query");
    await ask();
    counts[name] = spy.mock.calls.length;
    spy.mockRestore();
  }
  return counts;
}

describe("a page asks the database a fixed number of times", () => {
  test("ten times as many players, swings, notes and people change no count", async () => {
    const before = await countAll();
    expect(Object.values(before).every((count) => count > 0)).toBe(true);
    const ids = { coach: house.actors.coach.userId, guardian: house.actors.guardian.userId, admin: house.actors.admin.userId };
    await grow(house, 27, ids);
    house = { ...house, actors: await actorsOf(house.academyId, ids) };
    expect(await database().player.count({ where: { academyId: house.academyId } })).toBe(32);
    expect(await countAll()).toEqual(before);
  }, 120_000);
});
