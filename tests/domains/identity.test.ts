import { beforeAll, describe, expect, test } from "vitest";
import { isPerson, type Person, type Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";
import * as actions from "@/lib/domains/identity/actions";
import { countTry, hashPassword, makeLink, signIn } from "@/lib/domains/identity/commands";
import { sendLetter } from "@/lib/domains/identity/jobs";
import * as queries from "@/lib/domains/identity/queries";
import { answerAuth } from "@/lib/domains/identity/routes";
import { dayValue } from "@/lib/core/days";
import { database, inTransaction } from "@/lib/platform/database";
import { keptLetters } from "@/lib/platform/mail";
import { buildAcademy, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";

const PASSWORD = "three plain words";
let passwordHash: string;
beforeAll(async () => {
  passwordHash = await hashPassword(PASSWORD);
});

let tries = 0;
const trySignIn = (name: string, password = PASSWORD, address = `10.0.0.${++tries}`) => signIn({ name, password, address, device: "Chrome on a Mac", language: "en" });

async function actorOf(user: { id: Id; academyId: Id }, activeRole: Role): Promise<Person> {
  const session = await buildSession({ academyId: user.academyId, userId: user.id, activeRole });
  const actor = await findActor(session.id);
  if (!isPerson(actor)) throw new Error("nobody");
  return actor;
}

async function openedRole(outcome: Awaited<ReturnType<typeof trySignIn>>): Promise<string> {
  if ("refused" in outcome) return outcome.refused;
  const actor = await findActor(outcome.sessionId);
  return isPerson(actor) ? actor.role : "nobody";
}

describe("signing in", () => {
  test("a mail address, however written, with its password opens a session in a role that holds", async () => {
    await buildUser({ email: "marlow@example.test", passwordHash, roles: ["coach"] });
    expect(await openedRole(await trySignIn(" Marlow@Example.test "))).toBe("coach");
  });

  test("a child without mail signs in with the user name that a guardian made", async () => {
    const { id: academyId } = await buildAcademy();
    const parent = await buildUser({ academyId, roles: ["guardian"] });
    const player = await buildPlayer({ academyId, givenName: "Bea" });
    await buildGuardianship({ academyId, playerId: player.id, userId: parent.id });
    const guardian = await actorOf(parent, "guardian");
    await actions.makeChildLogin.as(guardian, { playerId: player.id, userName: "Bea.Swings", password: PASSWORD });

    const outcome = await trySignIn("bea.swings");
    expect(await openedRole(outcome)).toBe("player");
    if ("sessionId" in outcome) expect(await findActor(outcome.sessionId)).toMatchObject({ ownPlayerId: player.id, wardIds: [] });
    expect(await queries.getChildLogin.as(guardian, { playerId: player.id })).toMatchObject({ userName: "bea.swings", hasOwnMail: false });
  });

  test("a user name that somebody has, and a password that is the user name, are refused in a sentence at their field", async () => {
    const { id: academyId } = await buildAcademy();
    const parent = await buildUser({ academyId, roles: ["guardian"] });
    const player = await buildPlayer({ academyId });
    await buildGuardianship({ academyId, playerId: player.id, userId: parent.id });
    await buildUser({ userName: "taken-name", roles: ["player"] });
    const guardian = await actorOf(parent, "guardian");
    const make = (userName: string, password: string) => actions.makeChildLogin.as(guardian, { playerId: player.id, userName, password });
    await expect(make("taken-name", PASSWORD)).rejects.toMatchObject({ id: "invalid", fields: { userName: expect.stringMatching(/Somebody has this/) } });
    await expect(make("long-enough", "long-enough")).rejects.toMatchObject({ id: "invalid", fields: { password: expect.stringMatching(/name itself/) } });
    await expect(make("new name!", PASSWORD)).rejects.toMatchObject({ id: "invalid", fields: { userName: expect.stringMatching(/no spaces/) } });
    expect(await database().player.findUniqueOrThrow({ where: { id: player.id } })).toMatchObject({ userId: null });
  });

  test("a name that nobody has, one without a password and a password that is not the right one get the same answer", async () => {
    await buildUser({ email: "invited@example.test", roles: ["coach"] });
    await buildUser({ email: "known@example.test", passwordHash, roles: ["coach"] });
    expect(await trySignIn("nobody@example.test")).toEqual({ refused: "wrong" });
    expect(await trySignIn("invited@example.test")).toEqual({ refused: "wrong" });
    expect(await trySignIn("known@example.test", "three plain wordz")).toEqual({ refused: "wrong" });
  });

  test("after ten tries at a name the right password waits too, and other names do not", async () => {
    await buildUser({ email: "tried@example.test", passwordHash, roles: ["coach"] });
    await buildUser({ email: "calm@example.test", passwordHash, roles: ["coach"] });
    for (let i = 0; i < 10; i++) await trySignIn("tried@example.test", "not the one");
    await expect(trySignIn("TRIED@example.test")).rejects.toMatchObject({ id: "too-many", message: expect.stringMatching(/15 minutes/) });
    expect(await openedRole(await trySignIn("calm@example.test"))).toBe("coach");
    expect((await database().attempt.findMany()).every(({ key }) => /^:?[0-9a-f]{64}$/.test(key))).toBe(true);
  });

  test("one address that tries many names is stopped", async () => {
    for (let i = 0; i < 59; i++) await countTry([{ key: "sign-in address 10.9.9.9", most: 60 }]);
    expect(await trySignIn("guess@example.test", "x", "10.9.9.9")).toEqual({ refused: "wrong" });
    await expect(trySignIn("another.guess@example.test", "x", "10.9.9.9")).rejects.toMatchObject({ id: "too-many" });
  });

  test("a session begins in the role used last while it holds, and the door knows every role that does", async () => {
    const user = await buildUser({ email: "both@example.test", passwordHash, roles: ["coach", "guardian"] });
    expect(await openedRole(await trySignIn("both@example.test"))).toBe("coach");
    const actor = await actorOf(user, "coach");
    expect(actor.roles).toEqual(["coach", "guardian"]);
    await actions.switchRole.as(actor, { role: "guardian" });
    expect(await findActor(actor.sessionId)).toMatchObject({ role: "guardian" });
    await expect(actions.switchRole.as(actor, { role: "admin" })).rejects.toMatchObject({ id: "not-found" });
    expect(await findActor(actor.sessionId)).toMatchObject({ role: "guardian" });
  });

  test("who holds no role today is told so only after the right password", async () => {
    await buildUser({ email: "former@example.test", passwordHash, roles: ["coach"], until: "2026-11-25" });
    expect(await trySignIn("former@example.test")).toEqual({ refused: "no-role" });
    expect(await trySignIn("former@example.test", "another one")).toEqual({ refused: "wrong" });
  });
});

describe("the address of signing in", () => {
  test("a path that is none is not found", async () => {
    expect((await answerAuth.as({ kind: "nobody" }, new Request("http://localhost:3000/api/auth"), {})).status).toBe(404);
  });
});

describe("ending sessions", () => {
  test("signing out ends this session and no other; signing out everywhere ends all of them and nobody else's", async () => {
    const user = await buildUser({ roles: ["coach"] });
    const other = await actorOf(await buildUser({ roles: ["coach"] }), "coach");
    const [here, there, third] = [await actorOf(user, "coach"), await actorOf(user, "coach"), await actorOf(user, "coach")];
    await actions.signOut.as(here, {});
    expect((await findActor(here.sessionId)).kind).toBe("nobody");
    expect((await findActor(there.sessionId)).kind).toBe("person");
    expect(await queries.listMySessions.as(there, {})).toHaveLength(2);
    await actions.closeSession.as(there, { sessionId: other.sessionId });
    expect((await findActor(other.sessionId)).kind).toBe("person");
    await actions.signOutEverywhere.as(there, {});
    expect((await findActor(there.sessionId)).kind).toBe("nobody");
    expect((await findActor(third.sessionId)).kind).toBe("nobody");
    expect((await findActor(other.sessionId)).kind).toBe("person");
  });

  test("a changed password ends every other session and needs the present one", async () => {
    const user = await buildUser({ email: "change@example.test", passwordHash, roles: ["coach"] });
    const [here, there] = [await actorOf(user, "coach"), await actorOf(user, "coach")];
    const change = (currentPassword: string, newPassword: string) => actions.changePassword.as(here, { currentPassword, newPassword });
    await expect(change("not this one", "another password")).rejects.toMatchObject({ fields: { currentPassword: expect.any(String) } });
    await expect(change(PASSWORD, "short")).rejects.toMatchObject({ fields: { newPassword: expect.stringMatching(/at least 10/) } });
    await change(PASSWORD, "another password");
    expect((await findActor(here.sessionId)).kind).toBe("person");
    expect((await findActor(there.sessionId)).kind).toBe("nobody");
    expect(await openedRole(await trySignIn("change@example.test", "another password"))).toBe("coach");
  });

  test("deactivation counts at once, and opening the sign-in again does not bring the sessions back", async () => {
    const { id: academyId } = await buildAcademy();
    const admin = await actorOf(await buildUser({ academyId, roles: ["admin"] }), "admin");
    const user = await buildUser({ academyId, email: "leaving@example.test", passwordHash, roles: ["coach"] });
    const coach = await actorOf(user, "coach");
    await actions.deactivate.as(admin, { userId: user.id });
    expect((await findActor(coach.sessionId)).kind).toBe("nobody");
    expect(await trySignIn("leaving@example.test")).toEqual({ refused: "closed" });
    await actions.reactivate.as(admin, { userId: user.id });
    expect((await findActor(coach.sessionId)).kind).toBe("nobody");
    expect(await openedRole(await trySignIn("leaving@example.test"))).toBe("coach");
  });
});

describe("links from letters", () => {
  const linkFor = (user: { id: Id; academyId: Id }, purpose: "invitation" | "reset") => inTransaction((tx) => makeLink(tx, user, purpose));
  const nobody = { kind: "nobody" } as const;

  test("an invitation opens once, sets the password, and its secret stands nowhere in the database", async () => {
    const user = await buildUser({ email: "new@example.test", displayName: "New Person", roles: ["coach"] });
    const secret = await linkFor(user, "invitation");
    expect(JSON.stringify(await database().signInLink.findMany({ where: { userId: user.id } }))).not.toContain(secret);
    expect(await queries.getLink.as(nobody, { secret })).toMatchObject({ is: "open", purpose: "invitation", name: "New Person" });
    await expect(actions.acceptLink.as(nobody, { secret, password: "new person" })).rejects.toMatchObject({ fields: { password: expect.stringMatching(/name itself/) } });
    await actions.acceptLink.as(nobody, { secret, password: PASSWORD });
    expect(await openedRole(await trySignIn("new@example.test"))).toBe("coach");
    expect(await queries.getLink.as(nobody, { secret })).toEqual({ is: "gone" });
    await expect(actions.acceptLink.as(nobody, { secret, password: "yet another one" })).rejects.toMatchObject({ id: "conflict" });
  });

  test("two at once with one link: one wins", async () => {
    const secret = await linkFor(await buildUser({ roles: ["coach"] }), "invitation");
    const outcomes = await Promise.allSettled([1, 2].map((n) => actions.acceptLink.as(nobody, { secret, password: `password number ${n}` })));
    expect(outcomes.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
  });

  test("a newer link, the time and a closed sign-in each end an older link", async () => {
    const user = await buildUser({ roles: ["coach"] });
    const [first, second] = [await linkFor(user, "reset"), await linkFor(user, "reset")];
    expect(await queries.getLink.as(nobody, { secret: first })).toEqual({ is: "gone" });
    expect(await queries.getLink.as(nobody, { secret: second })).toMatchObject({ is: "open" });
    await database().signInLink.updateMany({ where: { userId: user.id }, data: { expiresAt: new Date("2026-11-25T14:59:59Z") } });
    expect(await queries.getLink.as(nobody, { secret: second })).toEqual({ is: "gone" });
    const third = await linkFor(user, "reset");
    await database().user.update({ where: { id: user.id }, data: { deactivatedAt: new Date() } });
    expect(await queries.getLink.as(nobody, { secret: third })).toEqual({ is: "gone" });
  });

  test("asking for a new password answers alike for every name, and only somebody with mail gets a letter", async () => {
    const user = await buildUser({ email: "lost@example.test", passwordHash, roles: ["coach"] });
    const known = await actions.askReset.as(nobody, { name: "lost@example.test" });
    const unknown = await actions.askReset.as(nobody, { name: "nobody-at-all@example.test" });
    expect(unknown).toEqual(known);
    await sendLetter.perform({ userId: user.id, purpose: "reset" }, false);
    const letter = (await keptLetters(10)).find(({ to }) => to === "lost@example.test");
    const secret = /\/reset\/([A-Za-z0-9_-]{43})/.exec(letter?.text ?? "")?.[1] ?? "";
    expect(await queries.getLink.as(nobody, { secret })).toMatchObject({ is: "open", purpose: "reset" });
    expect(await sendLetter.perform({ userId: crypto.randomUUID(), purpose: "reset" }, false)).toMatchObject({ is: "skipped" });
  });

  test("a reset ends every open session", async () => {
    const user = await buildUser({ roles: ["coach"] });
    const actor = await actorOf(user, "coach");
    await actions.acceptLink.as(nobody, { secret: await linkFor(user, "reset"), password: PASSWORD });
    expect((await findActor(actor.sessionId)).kind).toBe("nobody");
  });
});

describe("the staff", () => {
  async function office() {
    const { id: academyId } = await buildAcademy();
    const user = await buildUser({ academyId, roles: ["admin"] });
    return { academyId, user, admin: await actorOf(user, "admin") };
  }

  test("an invited coach has the role from today, and a letter is due", async () => {
    const { admin } = await office();
    const outcome = await actions.inviteStaff.as(admin, { displayName: "Ines Rao", email: "Ines@Example.test", role: "coach" });
    const userId = outcome.redirectTo?.split("/").at(-1) ?? "";
    expect(await queries.getPerson.as(admin, { userId })).toMatchObject({ name: "Ines Rao", email: "ines@example.test", roles: ["coach"], hasSignedUp: false });
    const jobs = await database().$queryRaw<{ payload: unknown }[]>`SELECT payload FROM graphile_worker._private_jobs`;
    expect(jobs.map(({ payload }) => payload)).toContainEqual({ userId, purpose: "invitation" });
  });

  test("an address that signs in already gets one more role of the same sign-in, and not twice", async () => {
    const { admin, academyId } = await office();
    const parent = await buildUser({ academyId, email: "parent@example.test", roles: ["guardian"] });
    const invite = () => actions.inviteStaff.as(admin, { displayName: "x", email: "parent@example.test", role: "coach" });
    expect(await invite()).toEqual({ redirectTo: `/people/${parent.id}` });
    expect(await queries.getPerson.as(admin, { userId: parent.id })).toMatchObject({ roles: ["coach", "guardian"] });
    await expect(invite()).rejects.toMatchObject({ id: "conflict", message: expect.stringMatching(/has that role already/) });
  });

  test("an address of another academy is refused in a sentence", async () => {
    const { admin } = await office();
    await buildUser({ email: "elsewhere@example.test", roles: ["coach"] });
    await expect(actions.inviteStaff.as(admin, { displayName: "x", email: "elsewhere@example.test", role: "coach" })).rejects.toMatchObject({ id: "invalid" });
  });

  test("a role that ends today no longer holds today, in a session that is open", async () => {
    const { admin, academyId } = await office();
    const user = await buildUser({ academyId, roles: ["head-coach", "coach"] });
    const head = await actorOf(user, "head-coach");
    const grant = (await queries.getPerson.as(admin, { userId: user.id })).grants.find(({ role }) => role === "head-coach");
    await actions.endRole.as(admin, { userId: user.id, grantId: grant?.id ?? "" });
    expect(await findActor(head.sessionId)).toMatchObject({ role: "coach", roles: ["coach"] });
  });

  test("a role may begin later and end by itself", async () => {
    const { admin, academyId } = await office();
    const user = await buildUser({ academyId, roles: ["coach"] });
    await expect(actions.grantRole.as(admin, { userId: user.id, role: "head-coach", from: "2026-12-01", until: "2026-12-01" })).rejects.toMatchObject({ fields: { until: expect.any(String) } });
    await actions.grantRole.as(admin, { userId: user.id, role: "head-coach", from: "2026-12-01", until: "2026-12-08" });
    expect((await actorOf(user, "head-coach")).roles).toEqual(["coach"]);
    expect(await database().roleGrant.findFirst({ where: { userId: user.id, role: "head-coach" } })).toMatchObject({ from: dayValue("2026-12-01"), until: dayValue("2026-12-08") });
  });

  test("the last admin stays admin, nobody closes their own sign-in, and a second admin makes both possible", async () => {
    const { admin, user, academyId } = await office();
    const grantId = (await queries.getPerson.as(admin, { userId: user.id })).grants[0]?.id ?? "";
    await expect(actions.endRole.as(admin, { userId: user.id, grantId })).rejects.toMatchObject({ message: expect.stringMatching(/must remain admin/) });
    await expect(actions.deactivate.as(admin, { userId: user.id })).rejects.toMatchObject({ id: "conflict" });
    const second = await actorOf(await buildUser({ academyId, roles: ["admin"] }), "admin");
    await actions.deactivate.as(second, { userId: user.id });
    expect((await findActor(admin.sessionId)).kind).toBe("nobody");
  });

  test("the letters of a house that is no demo are not shown to anybody", async () => {
    const { admin } = await office();
    await expect(queries.listKeptLetters.as(admin, {})).rejects.toMatchObject({ id: "not-found" });
  });
});
