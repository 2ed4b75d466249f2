import { describe, expect, test } from "vitest";
import { isPerson, type Person, type Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";
import * as actions from "@/lib/domains/roster/actions";
import { seePlayer } from "@/lib/domains/roster/policy";
import * as queries from "@/lib/domains/roster/queries";
import { findPlayerSubject, playersScope } from "@/lib/domains/roster/scope";
import { dayValue } from "@/lib/core/days";
import { database } from "@/lib/platform/database";
import { buildAcademy, buildAssignment, buildConsent, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";

type Built = { id: Id; academyId: Id };

async function actorOf(user: Built, activeRole: Role): Promise<Person> {
  const session = await buildSession({ academyId: user.academyId, userId: user.id, activeRole });
  const actor = await findActor(session.id);
  if (!isPerson(actor)) throw new Error("nobody");
  return actor;
}
/** The same person as the next request finds them. */
async function again(actor: Person): Promise<Person> {
  const found = await findActor(actor.sessionId);
  if (!isPerson(found)) throw new Error("nobody");
  return found;
}

async function house() {
  const { id: academyId } = await buildAcademy();
  const { id: locationId } = await buildLocation({ academyId });
  const make = async (role: Role, name?: string) => {
    const user = await buildUser({ academyId, roles: [role], displayName: name });
    return { user, actor: await actorOf(user, role) };
  };
  return { academyId, locationId, make, admin: (await make("admin")).actor };
}

const newPlayer = { givenName: "Ada", familyName: "Brook", birthDate: "2014-06-01", sport: "softball" as const, bats: "both" as const, isSlapper: "on", heightM: "1.41" };

describe("adding a player", () => {
  test("who bats both sides has two records, and only the left one can slap", async () => {
    const { admin, locationId } = await house();
    const { redirectTo } = await actions.addPlayer.as(admin, { ...newPlayer, locationId });
    const player = await queries.getPlayer.as(admin, { playerId: redirectTo?.split("/").at(-1) ?? "" });
    expect(player).toMatchObject({ name: "Ada Brook", ageYears: 12, level: "11-12", isMinor: true, heightM: 1.41 });
    expect(player.sides).toEqual([{ side: "right", isSlapper: false }, { side: "left", isSlapper: true }]);
  });

  test.each([
    ["2026-11-26", /lies in the future. Today is 2026-11-25/],
    ["2014-02-30", /There is no such day/],
    ["31.05.2014", /There is no such day/],
    ["1900-01-01", /Check the year/],
    ["2025-01-01", /at least 4 years/],
    ["", /There is no such day/],
  ])("the birth date %s is refused in a sentence at its field, and nothing is kept", async (birthDate, sentence) => {
    const { admin, locationId } = await house();
    await expect(actions.addPlayer.as(admin, { ...newPlayer, birthDate, locationId })).rejects.toMatchObject({ id: "invalid", fields: { birthDate: expect.stringMatching(sentence) } });
    expect((await queries.listPlayers.as(admin, {})).rows).toEqual([]);
  });

  test("slapping is refused for who bats right, and in baseball", async () => {
    const { admin, locationId } = await house();
    const add = (more: object) => actions.addPlayer.as(admin, { ...newPlayer, locationId, ...more });
    await expect(add({ bats: "right" })).rejects.toMatchObject({ fields: { isSlapper: expect.stringMatching(/left side/) } });
    await expect(add({ sport: "baseball" })).rejects.toMatchObject({ fields: { isSlapper: expect.stringMatching(/softball/) } });
  });

  test("a place of another academy is no place to train", async () => {
    const { admin } = await house();
    const elsewhere = await buildLocation();
    await expect(actions.addPlayer.as(admin, { ...newPlayer, locationId: elsewhere.id })).rejects.toMatchObject({ fields: { locationId: expect.any(String) } });
  });

  test("a side that is given up keeps its record and is no longer among the sides", async () => {
    const { admin, academyId } = await house();
    const { id: playerId } = await buildPlayer({ academyId, bats: "both" });
    await actions.editPlayer.as(admin, { ...newPlayer, isSlapper: "", bats: "left", playerId, hasLeftSchool: "" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).sides).toEqual([{ side: "left", isSlapper: false }]);
    expect(await database().battingSide.count({ where: { playerId } })).toBe(2);
  });
});

describe("age", () => {
  test("is counted to today at the player's location, which may be tomorrow already", async () => {
    const { admin, academyId } = await house();
    // It is 25 November, 15:00 in London and the 26th in Auckland.
    const there = await buildLocation({ academyId, timeZone: "Pacific/Auckland" });
    const here = await buildLocation({ academyId, timeZone: "Europe/London" });
    const born = { academyId, birthDate: "2014-11-26" };
    const [far, near] = [await buildPlayer({ ...born, locationId: there.id }), await buildPlayer({ ...born, locationId: here.id })];
    expect(await queries.getPlayerFacts.as(admin, { playerId: far.id })).toMatchObject({ ageYears: 12, today: "2026-11-26", isYouth: true });
    expect(await queries.getPlayerFacts.as(admin, { playerId: near.id })).toMatchObject({ ageYears: 11, today: "2026-11-25" });
  });

  test("reaches coaches and family without the birth date", async () => {
    const { academyId, make } = await house();
    const { user, actor } = await make("coach");
    const { id: playerId } = await buildPlayer({ academyId, birthDate: "2013-03-07" });
    await buildAssignment({ academyId, playerId, userId: user.id });
    const coach = await again(actor);
    const seen = JSON.stringify([await queries.getPlayer.as(coach, { playerId }), await queries.getPlayerFacts.as(coach, { playerId }), await queries.listPlayers.as(coach, {})]);
    expect(seen).toContain('"ageYears":13');
    expect(seen).not.toContain("2013");
    await expect(queries.getPlayerRecord.as(coach, { playerId })).rejects.toMatchObject({ id: "not-found" });
  });
});

describe("guardians", () => {
  test("a mail address that is known is the same sign-in with one more child, and no second letter", async () => {
    const { admin, academyId } = await house();
    const [first, second] = [await buildPlayer({ academyId, givenName: "Ida" }), await buildPlayer({ academyId, givenName: "Jon" })];
    const add = (playerId: Id) => actions.addGuardian.as(admin, { playerId, displayName: "Kim Vale", email: "kim.vale@example.test", relation: "parent" });
    await add(first.id);
    await add(second.id);
    const user = await database().user.findUniqueOrThrow({ where: { email: "KIM.VALE@example.test" }, include: { roles: true } });
    expect(user.roles.map(({ role }) => role)).toEqual(["guardian"]);
    const letters = await database().$queryRaw<{ payload: { userId: Id } }[]>`SELECT payload FROM graphile_worker._private_jobs`;
    expect(letters.filter(({ payload }) => payload.userId === user.id)).toHaveLength(1);
    await expect(add(first.id)).rejects.toMatchObject({ id: "conflict", message: expect.stringMatching(/already/) });
    const guardian = await actorOf(user, "guardian");
    expect((await queries.getFamilyPlayers.as(guardian, {})).map(({ givenName }) => givenName)).toEqual(["Ida", "Jon"]);
  });

  test("two children of one guardian are never mixed, and a third child is not found", async () => {
    const { academyId, make } = await house();
    const { user, actor } = await make("guardian");
    const [ida, jon, other] = [await buildPlayer({ academyId, givenName: "Ida" }), await buildPlayer({ academyId, givenName: "Jon" }), await buildPlayer({ academyId })];
    for (const child of [ida, jon]) await buildGuardianship({ academyId, playerId: child.id, userId: user.id });
    const guardian = await again(actor);
    await actions.reportPain.as(guardian, { playerId: ida.id, part: "knee", level: "4", words: "sore" });
    await actions.recordComplaint.as(guardian, { playerId: jon.id, part: "wrist" });
    expect(await queries.getPlayerFacts.as(guardian, { playerId: ida.id })).toMatchObject({ givenName: "Ida", isPaused: true, complaints: [] });
    expect(await queries.getPlayerFacts.as(guardian, { playerId: jon.id })).toMatchObject({ givenName: "Jon", isPaused: false, complaints: ["wrist"] });
    const complaint = await database().complaint.findFirstOrThrow({ where: { playerId: jon.id } });
    await expect(actions.endComplaint.as(guardian, { playerId: ida.id, complaintId: complaint.id })).rejects.toMatchObject({ id: "not-found" });
    await expect(queries.getPlayer.as(guardian, { playerId: other.id })).rejects.toMatchObject({ id: "not-found" });
  });

  test("who is no longer guardian sees nothing of that child at once, and keeps the other", async () => {
    const { admin, academyId, make } = await house();
    const { user, actor } = await make("guardian");
    const [ida, jon] = [await buildPlayer({ academyId }), await buildPlayer({ academyId })];
    const span = await buildGuardianship({ academyId, playerId: ida.id, userId: user.id });
    await buildGuardianship({ academyId, playerId: jon.id, userId: user.id });
    await actions.endGuardianship.as(admin, { playerId: ida.id, guardianshipId: span.id });
    expect((await queries.getFamilyPlayers.as(await again(actor), {})).map(({ id }) => id)).toEqual([jon.id]);
  });

  test("a minor gets no sign-in by mail from the office, a grown-up player does", async () => {
    const { admin, academyId } = await house();
    const [minor, adult] = [await buildPlayer({ academyId }), await buildPlayer({ academyId, birthDate: "2008-11-25" })];
    await expect(actions.invitePlayer.as(admin, { playerId: minor.id, email: "minor@example.test" })).rejects.toMatchObject({ id: "conflict", message: expect.stringMatching(/guardian/) });
    await actions.invitePlayer.as(admin, { playerId: adult.id, email: "adult@example.test" });
    const user = await database().user.findUniqueOrThrow({ where: { email: "adult@example.test" } });
    expect((await actorOf(user, "player")).ownPlayerId).toBe(adult.id);
  });
});

describe("coaches", () => {
  test("an assignment opens the player, and the day on which it ends closes it", async () => {
    const { admin, academyId, make } = await house();
    const { user, actor } = await make("coach");
    const { id: playerId } = await buildPlayer({ academyId });
    await actions.assignCoach.as(admin, { playerId, userId: user.id });
    expect((await queries.listPlayers.as(await again(actor), {})).rows.map(({ id }) => id)).toEqual([playerId]);
    const { coaches } = await queries.getPlayerRecord.as(admin, { playerId });
    await actions.endAssignment.as(admin, { playerId, assignmentId: coaches[0]?.id ?? "" });
    expect((await queries.listPlayers.as(await again(actor), {})).rows).toEqual([]);
    await expect(queries.getPlayer.as(await again(actor), { playerId })).rejects.toMatchObject({ id: "not-found" });
  });

  test("days that overlap, days that end before they begin and people who do not coach are refused in a sentence", async () => {
    const { admin, academyId, make } = await house();
    const { user } = await make("coach");
    const { id: playerId } = await buildPlayer({ academyId });
    const assign = (more: object) => actions.assignCoach.as(admin, { playerId, userId: user.id, ...more });
    await assign({ until: "2026-12-20" });
    await expect(assign({ from: "2026-12-19" })).rejects.toMatchObject({ id: "conflict" });
    await assign({ from: "2026-12-20", until: "2026-12-31" });
    await expect(assign({ from: "2027-01-05", until: "2027-01-05" })).rejects.toMatchObject({ fields: { until: expect.any(String) } });
    await expect(assign({ userId: (await make("guardian")).user.id })).rejects.toMatchObject({ fields: { userId: expect.stringMatching(/coaches here/) } });
  });

  test("all players of a coach who leaves go to another in one step, and nobody has a coach twice", async () => {
    const { admin, academyId, make } = await house();
    const [leaving, staying] = [await make("coach"), await make("coach")];
    const players = await Promise.all(["Ana", "Ben", "Cy"].map((givenName) => buildPlayer({ academyId, givenName, familyName: "X" })));
    for (const { id: playerId } of players) await buildAssignment({ academyId, playerId, userId: leaving.user.id });
    await buildAssignment({ academyId, playerId: players[0]?.id ?? "", userId: staying.user.id });
    expect(await actions.reassignPlayers.as(admin, { fromUserId: leaving.user.id, toUserId: staying.user.id })).toEqual({ message: "2 players were handed over." });
    expect((await queries.listPlayers.as(await again(leaving.actor), {})).rows).toEqual([]);
    expect((await queries.listPlayers.as(await again(staying.actor), {})).rows.map(({ name, coachNames }) => [name, coachNames.length])).toEqual([["Ana X", 1], ["Ben X", 1], ["Cy X", 1]]);
  });

  test("who has left is gone from coaches' lists at once, stays in the office's, and can be taken back", async () => {
    const { admin, academyId, make } = await house();
    const { user, actor } = await make("coach");
    const { id: playerId } = await buildPlayer({ academyId });
    await buildAssignment({ academyId, playerId, userId: user.id });
    await actions.leaveAcademy.as(admin, { playerId });
    await expect(queries.getPlayer.as(await again(actor), { playerId })).rejects.toMatchObject({ id: "not-found" });
    await expect(actions.assignCoach.as(admin, { playerId, userId: user.id })).rejects.toMatchObject({ id: "conflict", message: expect.stringMatching(/has left/) });
    expect((await queries.listPlayers.as(admin, { hasLeft: true })).rows).toHaveLength(1);
    await actions.takeBack.as(admin, { playerId });
    expect((await queries.listPlayers.as(admin, {})).rows).toHaveLength(1);
  });
});

describe("consent", () => {
  test("holds 365 days at most, opens what may be shown, and closes it at once when withdrawn", async () => {
    const { academyId, make } = await house();
    const { user, actor } = await make("guardian");
    const { id: playerId } = await buildPlayer({ academyId });
    await buildGuardianship({ academyId, playerId, userId: user.id });
    const guardian = await again(actor);
    await expect(actions.recordConsent.as(guardian, { playerId, use: "lesson", validUntil: "2027-11-26" })).rejects.toMatchObject({ fields: { validUntil: expect.stringMatching(/until 2027-11-25 at the latest/) } });
    await actions.recordConsent.as(guardian, { playerId, use: "lesson" });
    expect(await database().permit.findMany({ where: { playerId } })).toMatchObject([{ use: "lesson", validUntil: dayValue("2027-11-25") }]);
    expect(await queries.getPlayerFacts.as(guardian, { playerId })).toMatchObject({ permittedUses: ["lesson"] });
    await actions.withdrawConsent.as(guardian, { playerId, use: "lesson" });
    expect(await database().permit.count({ where: { playerId } })).toBe(0);
    await expect(actions.withdrawConsent.as(guardian, { playerId, use: "lesson" })).rejects.toMatchObject({ id: "conflict" });
    expect(await queries.listConsents.as(guardian, { playerId })).toMatchObject([{ isWithdrawn: true, isValid: false, method: "signed-in" }]);
  });

  test("of 366 days ago has lapsed, and its last day is the day before it ends", async () => {
    const { admin, academyId } = await house();
    const { id: playerId } = await buildPlayer({ academyId });
    const given = { academyId, playerId, recordedById: admin.userId };
    await buildConsent({ ...given, givenOn: "2025-11-24", validUntil: "2026-11-24" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).permittedUses).toEqual([]);
    await buildConsent({ ...given, givenOn: "2025-11-25", validUntil: "2026-11-25" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).permittedUses).toEqual([]);
    await buildConsent({ ...given, givenOn: "2025-11-26", validUntil: "2026-11-26" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).permittedUses).toEqual(["lesson"]);
  });

  test("on paper names a guardian of this player and a day that has been; a day to come is refused", async () => {
    const { admin, academyId, make } = await house();
    const { id: playerId } = await buildPlayer({ academyId });
    const record = (more: object) => actions.recordConsent.as(admin, { playerId, use: "public", givenById: "", ...more });
    await expect(record({ givenOn: "2026-11-26" })).rejects.toMatchObject({ fields: { givenOn: expect.stringMatching(/future/) } });
    await expect(record({ givenById: (await make("guardian")).user.id })).rejects.toMatchObject({ fields: { givenById: expect.any(String) } });
    await record({ givenOn: "2026-10-01" });
    expect(await database().consent.findFirst({ where: { playerId } })).toMatchObject({ method: "paper", validUntil: dayValue("2027-10-01") });
  });

  test("is a minor's guardian's to give, and a grown-up player's own", async () => {
    const { academyId } = await house();
    const [young, grown] = [await buildUser({ academyId, roles: ["player"] }), await buildUser({ academyId, roles: ["player"] })];
    const minor = await buildPlayer({ academyId, userId: young.id });
    const adult = await buildPlayer({ academyId, userId: grown.id, birthDate: "2008-11-25" });
    await expect(actions.recordConsent.as(await actorOf(young, "player"), { playerId: minor.id, use: "lesson" })).rejects.toMatchObject({ id: "not-found" });
    await actions.recordConsent.as(await actorOf(grown, "player"), { playerId: adult.id, use: "lesson" });
    expect(await database().permit.count({ where: { playerId: adult.id } })).toBe(1);
  });
});

describe("what is kept and read", () => {
  test("every change leaves an audit row of ids and the operation's name, and no word of what was typed", async () => {
    const { admin, academyId, locationId } = await house();
    await actions.addPlayer.as(admin, { ...newPlayer, locationId });
    const { id: playerId } = await buildPlayer({ academyId });
    await actions.addGuardian.as(admin, { playerId, displayName: "Kim Secretname", email: "secret.address@example.test", relation: "parent" });
    const rows = await database().auditEntry.findMany({ where: { academyId } });
    expect(rows.map(({ operation, subjectId }) => [operation, subjectId])).toContainEqual(["roster.add-guardian", playerId]);
    expect(JSON.stringify(rows)).not.toMatch(/Secretname|secret\.address|Brook/);
  });

  test("the home set-up is kept whole and read back; sizes that no yard has are refused", async () => {
    const { admin, academyId } = await house();
    const { id: playerId } = await buildPlayer({ academyId });
    const home = { playerId, gear: ["tee", "foam-ball"], widthM: "4", lengthM: "6.5", hasCage: "", partnerCount: "1", adult: "nearby" as const, minutesPerDay: "20", daysPerWeek: "4" };
    await actions.setHomeSetup.as(admin, home);
    await actions.setHomeSetup.as(admin, { ...home, daysPerWeek: "3" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).home).toEqual({
      gear: ["tee", "foam-ball"], widthM: 4, lengthM: 6.5, hasCage: false, partnerCount: 1, adult: "nearby", minutesPerDay: 20, daysPerWeek: 3,
    });
    await expect(actions.setHomeSetup.as(admin, { ...home, daysPerWeek: "6" })).rejects.toMatchObject({ fields: { daysPerWeek: expect.stringMatching(/1 to 5/) } });
  });

  test("a complaint is kept once per part while it lasts, and may come again", async () => {
    const { admin, academyId } = await house();
    const { id: playerId } = await buildPlayer({ academyId });
    await actions.recordComplaint.as(admin, { playerId, part: "elbow" });
    await expect(actions.recordComplaint.as(admin, { playerId, part: "elbow" })).rejects.toMatchObject({ id: "conflict" });
    const [complaint] = (await queries.getPlayerRecord.as(admin, { playerId })).complaints;
    await actions.endComplaint.as(admin, { playerId, complaintId: complaint?.id ?? "" });
    await actions.recordComplaint.as(admin, { playerId, part: "elbow" });
    expect((await queries.getPlayerFacts.as(admin, { playerId })).complaints).toEqual(["elbow"]);
  });

  test("the roster is found by any part of a name and read in pages that miss and repeat nobody", async () => {
    const { admin, academyId, locationId } = await house();
    for (let i = 0; i < 53; i++) await buildPlayer({ academyId, locationId, givenName: `Kid${String(i).padStart(2, "0")}`, familyName: i % 2 ? "Same" : "Other" });
    const first = await queries.listPlayers.as(admin, {});
    const second = await queries.listPlayers.as(admin, { after: first.next ?? "" });
    expect([first.rows.length, second.rows.length, second.next]).toEqual([50, 3, null]);
    expect(new Set([...first.rows, ...second.rows].map(({ id }) => id)).size).toBe(53);
    expect((await queries.listPlayers.as(admin, { search: "same kid1" })).rows.map(({ name }) => name)).toEqual(["Kid11 Same", "Kid13 Same", "Kid15 Same", "Kid17 Same", "Kid19 Same"]);
    expect((await queries.listPlayers.as(admin, { search: "%" })).rows).toEqual([]);
  });

  test("the scope and the ability give the same answer for everybody on every player", async () => {
    const { academyId, make } = await house();
    const people = await Promise.all((["admin", "head-coach", "coach", "guardian"] as const).map((role) => make(role)));
    const own = await buildUser({ academyId, roles: ["player"] });
    const [taught, plain, foreign] = [await buildPlayer({ academyId, userId: own.id }), await buildPlayer({ academyId }), await buildPlayer({})];
    await buildAssignment({ academyId, playerId: taught.id, userId: people[2]?.user.id ?? "" });
    await buildGuardianship({ academyId, playerId: taught.id, userId: people[3]?.user.id ?? "" });
    const actors = [...(await Promise.all(people.map(({ actor }) => again(actor)))), await actorOf(own, "player")];
    for (const actor of actors) {
      const listed = new Set((await database().player.findMany({ where: playersScope(actor), select: { id: true } })).map(({ id }) => id));
      for (const player of [taught, plain, foreign]) {
        const subject = await findPlayerSubject(database(), player.academyId, player.id);
        expect([actor.role, player.givenName, listed.has(player.id)]).toEqual([actor.role, player.givenName, subject !== null && seePlayer.allows(actor, subject)]);
      }
    }
  });
});
