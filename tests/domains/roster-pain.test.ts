import { describe, expect, test } from "vitest";
import { isPerson, type Person, type Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";
import * as actions from "@/lib/domains/roster/actions";
import { tellThatSomethingWaits } from "@/lib/domains/roster/jobs";
import { getStops } from "@/lib/domains/practice/queries";
import { noteIncident } from "@/lib/domains/roster/incidents/actions";
import { listIncidents } from "@/lib/domains/roster/incidents/queries";
import * as queries from "@/lib/domains/roster/queries";
import { database } from "@/lib/platform/database";
import { keptLetters } from "@/lib/platform/mail";
import { buildAcademy, buildAssignment, buildGuardianship, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";

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

describe("pain", () => {
  async function team() {
    const given = await house();
    const { academyId, make } = given;
    const coach = await make("coach", "Coach One");
    const [head, former, mother, father, stranger] = [await make("head-coach"), await make("coach"), await make("guardian"), await make("guardian"), await make("guardian")];
    const own = await buildUser({ academyId, roles: ["player"], displayName: "Pia" });
    const player = await buildPlayer({ academyId, userId: own.id, givenName: "Pia" });
    await buildAssignment({ academyId, playerId: player.id, userId: coach.user.id });
    await buildAssignment({ academyId, playerId: player.id, userId: former.user.id, until: "2026-11-25" });
    for (const { user } of [mother, father]) await buildGuardianship({ academyId, playerId: player.id, userId: user.id });
    return { ...given, playerId: player.id, own: await actorOf(own, "player"), coach, head, former, mother, father, stranger };
  }

  test("pauses at once and tells every coach of today, the head coach and every guardian, and nobody else", async () => {
    const { playerId, own, coach, head, former, mother, father, stranger } = await team();
    await actions.reportPain.as(own, { playerId, part: "knee", level: "3", words: "" });
    expect(await queries.isPaused.as(own, { playerId })).toBe(true);
    const notices = await database().notice.findMany({ where: { playerId } });
    expect(notices.map(({ userId }) => userId).sort()).toEqual([coach, head, mother, father].map(({ user }) => user.id).sort());
    expect((await queries.listNotices.as(await again(coach.actor), {})).rows).toMatchObject([{ kind: "pain-reported", playerName: "Pia Tester", isRead: false }]);
    for (const { actor } of [former, stranger]) expect((await queries.listNotices.as(await again(actor), {})).rows).toEqual([]);
    const told = await database().$queryRaw<{ payload: object }[]>`SELECT payload FROM graphile_worker._private_jobs`;
    for (const { user } of [coach, mother]) expect(told.map(({ payload }) => payload)).toContainEqual({ userId: user.id });
  });

  test("the letter about it names nobody and nothing", async () => {
    const { playerId, own, coach } = await team();
    await actions.reportPain.as(own, { playerId, part: "elbow", level: "6", words: "when I throw" });
    await tellThatSomethingWaits.perform({ userId: coach.user.id }, false);
    const letter = (await keptLetters(20)).find(({ to }) => to === coach.user.email);
    expect(letter?.subject).toMatch(/Something waits/);
    expect(JSON.stringify(letter)).not.toMatch(/Pia|elbow|pain|hurt|throw/i);
    const notice = (await queries.listNotices.as(await again(coach.actor), {})).rows[0];
    await actions.readNotice.as(await again(coach.actor), { noticeId: notice?.id ?? "" });
    expect(await tellThatSomethingWaits.perform({ userId: coach.user.id }, false)).toMatchObject({ is: "skipped" });
  });

  test("stays until coach and guardian have both cleared it; a minor clears nothing", async () => {
    const { playerId, own, coach, mother } = await team();
    await actions.reportPain.as(own, { playerId, part: "wrist", level: "2", words: "" });
    const pauseId = (await queries.getPlayer.as(own, { playerId })).pauses[0]?.id ?? "";
    const [teacher, guardian] = [await again(coach.actor), await again(mother.actor)];
    await expect(actions.clearPauseAsFamily.as(own, { playerId, pauseId })).rejects.toMatchObject({ id: "not-found" });
    await expect(actions.clearPauseAsCoach.as(guardian, { playerId, pauseId })).rejects.toMatchObject({ id: "not-found" });
    await actions.clearPauseAsCoach.as(teacher, { playerId, pauseId });
    expect(await queries.isPaused.as(own, { playerId })).toBe(true);
    await actions.clearPauseAsFamily.as(guardian, { playerId, pauseId });
    expect(await queries.isPaused.as(own, { playerId })).toBe(false);
    await expect(actions.clearPauseAsCoach.as(teacher, { playerId, pauseId })).rejects.toMatchObject({ id: "not-found" });
  });

  test("both sides clearing at the same moment end it", async () => {
    const { playerId, own, coach, mother } = await team();
    await actions.reportPain.as(own, { playerId, part: "hip", level: "2", words: "" });
    const pauseId = (await queries.getPlayer.as(own, { playerId })).pauses[0]?.id ?? "";
    await Promise.all([
      actions.clearPauseAsCoach.as(await again(coach.actor), { playerId, pauseId }),
      actions.clearPauseAsFamily.as(await again(mother.actor), { playerId, pauseId }),
    ]);
    expect(await queries.isPaused.as(own, { playerId })).toBe(false);
  });

  test("one person who coaches and is the guardian cannot clear both sides", async () => {
    const { academyId, playerId, own, coach } = await team();
    await database().roleGrant.create({ data: { id: crypto.randomUUID(), academyId, userId: coach.user.id, role: "guardian", from: new Date("2026-01-01") } });
    await buildGuardianship({ academyId, playerId, userId: coach.user.id });
    await actions.reportPain.as(own, { playerId, part: "hip", level: "2", words: "" });
    const pauseId = (await queries.getPlayer.as(own, { playerId })).pauses[0]?.id ?? "";
    await actions.clearPauseAsCoach.as(await again(coach.actor), { playerId, pauseId });
    const asGuardian = await actorOf(coach.user, "guardian");
    await expect(actions.clearPauseAsFamily.as(asGuardian, { playerId, pauseId })).rejects.toMatchObject({ id: "conflict" });
    expect(await queries.isPaused.as(own, { playerId })).toBe(true);
  });

  test("the office learns that swings are paused, and neither where nor how much it hurts", async () => {
    const { academyId, playerId, own } = await team();
    await actions.reportPain.as(own, { playerId, part: "hip", level: "7", words: "deep inside" });
    const office = await buildUser({ academyId, roles: ["admin"] });
    const seen = await queries.getPlayer.as(await actorOf(office, "admin"), { playerId });
    expect(seen.isPaused).toBe(true);
    expect(JSON.stringify(seen)).not.toMatch(/deep inside|"hip"/);
  });

  test("two reports are two pauses: clearing one leaves the other", async () => {
    const { playerId, own, coach, mother } = await team();
    for (const part of ["hip", "back"] as const) await actions.reportPain.as(own, { playerId, part, level: "2", words: "" });
    const pauseId = (await queries.getPlayer.as(own, { playerId })).pauses[0]?.id ?? "";
    await actions.clearPauseAsCoach.as(await again(coach.actor), { playerId, pauseId });
    await actions.clearPauseAsFamily.as(await again(mother.actor), { playerId, pauseId });
    expect(await queries.isPaused.as(own, { playerId })).toBe(true);
  });

  test("of a grown-up without guardians is cleared by the coach and the player", async () => {
    const { academyId, make } = await house();
    const { user, actor } = await make("coach");
    const grown = await buildUser({ academyId, roles: ["player"] });
    const { id: playerId } = await buildPlayer({ academyId, userId: grown.id, birthDate: "2001-01-01" });
    await buildAssignment({ academyId, playerId, userId: user.id });
    const [coach, player] = [await again(actor), await actorOf(grown, "player")];
    await actions.reportPain.as(coach, { playerId, part: "side", level: "5", words: "" });
    const pauseId = (await queries.getPlayer.as(player, { playerId })).pauses[0]?.id ?? "";
    await actions.clearPauseAsFamily.as(player, { playerId, pauseId });
    expect(await queries.isPaused.as(player, { playerId })).toBe(true);
    await actions.clearPauseAsCoach.as(coach, { playerId, pauseId });
    expect(await queries.isPaused.as(player, { playerId })).toBe(false);
  });

  test.each([[{ part: "soul" }, "part"], [{ level: "11" }, "level"], [{ level: "-1" }, "level"], [{ words: "x".repeat(501) }, "words"]])("%j is refused at its field", async (more, field) => {
    const { playerId, own } = await team();
    const given = { playerId, part: "knee", level: "3", words: "", ...more } as Parameters<typeof actions.reportPain.as>[1];
    await expect(actions.reportPain.as(own, given)).rejects.toMatchObject({ id: "invalid", fields: { [field]: expect.any(String) } });
    expect(await queries.isPaused.as(own, { playerId })).toBe(false);
  });

  describe("an incident that the academy notes", () => {
    const HIT = { kind: "hit" as const, part: "hand" as const, happenedOn: "2026-11-25", words: "A ball came back off the frame.", firstAid: "Ice." };

    test("stops swings at once and tells every guardian, coach of today and head coach, whoever notes it", async () => {
      const { playerId, admin, own, coach, head, mother, father } = await team();
      const told = async () => (await database().notice.findMany({ where: { playerId, kind: "incident-noted" } })).map(({ userId }) => userId).sort();
      await noteIncident.as(admin, { playerId, ...HIT });
      expect(await queries.isPaused.as(own, { playerId })).toBe(true);
      expect(await told()).toEqual([coach, head, mother, father].map(({ user }) => user.id).sort());
      const { stops } = await getStops.as(await again(mother.actor), { playerId });
      expect(stops).toMatchObject([{ cause: "hit", part: "hand", noted: { words: HIT.words, firstAid: "Ice." } }]);
      expect(stops[0]!.told).toHaveLength(4);
      expect((await listIncidents.as(admin, {})).rows).toMatchObject([{ playerName: "Pia Tester", kind: "hit", words: HIT.words, isClearedByCoach: false, isClearedByFamily: false }]);
    });

    test("stands in the office's list, while pain that a family reports does not", async () => {
      const { playerId, admin, own, coach } = await team();
      await actions.reportPain.as(own, { playerId, part: "hip", level: "7", words: "deep inside" });
      expect((await listIncidents.as(admin, {})).rows).toEqual([]);
      await noteIncident.as(await again(coach.actor), { playerId, ...HIT });
      expect(JSON.stringify(await listIncidents.as(admin, {}))).not.toMatch(/deep inside|"hip"/);
    });

    test("to the head is cleared by the family only with the day on which a clinician said yes, and by a coach too", async () => {
      const { playerId, own, coach, mother, admin } = await team();
      const [teacher, guardian] = [await again(coach.actor), await again(mother.actor)];
      await noteIncident.as(teacher, { playerId, ...HIT, kind: "head-blow", happenedOn: "2026-11-24" });
      const { id: pauseId, part, cause } = (await queries.getPlayer.as(teacher, { playerId })).pauses[0]!;
      expect({ part, cause }).toEqual({ part: "head", cause: "head-blow" });
      await actions.clearPauseAsCoach.as(teacher, { playerId, pauseId });
      for (const clinicianSaidOn of ["", "2026-11-23", "2026-11-26"]) {
        await expect(actions.clearPauseAsFamily.as(guardian, { playerId, pauseId, clinicianSaidOn })).rejects.toMatchObject({ fields: { clinicianSaidOn: expect.stringMatching(/stay paused/) } });
      }
      expect(await queries.isPaused.as(own, { playerId })).toBe(true);
      await actions.clearPauseAsFamily.as(guardian, { playerId, pauseId, clinicianSaidOn: "2026-11-25" });
      expect(await queries.isPaused.as(own, { playerId })).toBe(false);
      expect((await listIncidents.as(admin, {})).rows[0]).toMatchObject({ isClearedByCoach: true, isClearedByFamily: true, clinicianSaidOn: "2026-11-25" });
    });

    test("is noted today or within two weeks, in words", async () => {
      const { playerId, own, coach } = await team();
      const note = async (more: object) => noteIncident.as(await again(coach.actor), { playerId, ...HIT, ...more });
      for (const happenedOn of ["2026-11-26", "2026-11-11"]) await expect(note({ happenedOn })).rejects.toMatchObject({ fields: { happenedOn: expect.any(String) } });
      await expect(note({ words: "" })).rejects.toMatchObject({ fields: { words: "Write what happened." } });
      expect(await queries.isPaused.as(own, { playerId })).toBe(false);
    });

    test("and a pause without a cause is refused by the database", async () => {
      const { academyId, playerId } = await team();
      await expect(database().pause.create({ data: { id: crypto.randomUUID(), academyId, playerId } })).rejects.toThrow();
    });
  });
});
