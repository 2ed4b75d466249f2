import { hash, verify } from "@node-rs/argon2";
import { RateLimiterPrisma, RateLimiterRes } from "rate-limiter-flexible";
import type { Granted, Subject } from "@/lib/access/ability";
import { ROLES, type Person, type Role } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError, TooManyError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import type { Language } from "@/lib/core/words/languages";
import { dayOf, dayValue } from "@/lib/core/days";
import { now, todayIn } from "@/lib/platform/clock";
import { countersDatabase, database, refusedByUnique, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { letterDue } from "./events";
import type { ChildSubject, UserSubject } from "./policy";
import { INVITATION_DAYS, passwordProblem, RESET_HOURS, roleToBeginIn, SESSION_DAYS, type StaffRole } from "./rules";
import { hashOfSecret, openSessions, roleHolds } from "./scope";

/** Argon2id (the package's default) with its default cost. */
export async function hashPassword(password: string): Promise<string> {
  return hash(password);
}

let dummyHash: Promise<string> | null = null;

/** Takes as long for a name that nobody has, or that has no password yet, as for one that exists. */
async function isPassword(stored: string | null, password: string): Promise<boolean> {
  dummyHash ??= hash("a password that nobody has");
  const isRight = await verify(stored ?? (await dummyHash), password);
  return stored !== null && isRight;
}

const WINDOW_SECONDS = 15 * 60;

/** Counts a try under each key before it is made. @throws TooManyError when one of them has had too many */
export async function countTry(tries: readonly { key: string; most: number }[]): Promise<void> {
  for (const { key, most } of tries) {
    const limiter = new RateLimiterPrisma({
      storeClient: countersDatabase(), tableName: "attempt", keyPrefix: "", points: most, duration: WINDOW_SECONDS, clearExpiredByTimeout: false,
    });
    try {
      await limiter.consume(hashOfSecret(key));
    } catch (refused) {
      if (refused instanceof RateLimiterRes) throw new TooManyError(refused.msBeforeNext / 1000);
      throw refused;
    }
  }
}

async function forgetTries(key: string): Promise<void> {
  await database().attempt.deleteMany({ where: { key: hashOfSecret(key) } });
}

export interface SignInTry {
  readonly name: string;
  readonly password: string;
  readonly address: string;
  readonly device: string;
  /** What the sign-in page was read in. */
  readonly language: Language;
}

/** Why a sign-in was refused: a code that may stand in an address. */
export type SignInRefusal = "wrong" | "closed" | "no-role";

/** Checks a name and a password and opens a session. @throws TooManyError */
export async function signIn(given: SignInTry): Promise<{ sessionId: Id } | { refused: SignInRefusal }> {
  const nameKey = `sign-in name ${given.name.trim().toLowerCase()}`;
  await countTry([{ key: `sign-in address ${given.address}`, most: 60 }, { key: nameKey, most: 10 }]);
  const name = given.name.trim();
  const user = await database().user.findFirst({
    where: { OR: [{ email: name }, { userName: name }] },
    include: { roles: true, academy: { select: { timeZone: true } }, sessions: { orderBy: { createdAt: "desc" }, take: 1, select: { activeRole: true } } },
  });
  if (!(await isPassword(user?.passwordHash ?? null, given.password)) || !user) return { refused: "wrong" };
  if (user.deactivatedAt) return { refused: "closed" };
  const today = todayIn(user.academy.timeZone);
  const held = ROLES.filter((role) =>
    user.roles.some((grant) => grant.role === role && dayOf(grant.from) <= today && (grant.until === null || dayOf(grant.until) > today)),
  );
  const activeRole = roleToBeginIn(held, user.sessions[0]?.activeRole ?? null);
  if (!activeRole) return { refused: "no-role" };
  const session = await database().session.create({
    data: {
      id: newId(), academyId: user.academyId, userId: user.id, activeRole, device: given.device,
      createdAt: now(), expiresAt: new Date(now().getTime() + SESSION_DAYS * 86_400_000),
    },
  });
  // Who never chose reads on in what the sign-in page was read in, and gets letters in it.
  if (user.language === null) await database().user.update({ where: { id: user.id }, data: { language: given.language } });
  await forgetTries(nameKey);
  return { sessionId: session.id };
}

/** Closes one of the person's own sessions. */
export async function closeSession(tx: Transaction, actor: Person, sessionId: Id): Promise<void> {
  await tx.session.updateMany({ where: { id: sessionId, academyId: actor.academyId, userId: actor.userId, revokedAt: null }, data: { revokedAt: now() } });
}

/** Closes every open session of somebody, but for one that may stay. @returns how many were closed */
export async function closeSessions(tx: Transaction, academyId: Id, userId: Id, except: Id | null = null): Promise<number> {
  const closed = await tx.session.updateMany({
    where: { academyId, userId, ...openSessions(now()), ...(except ? { id: { not: except } } : {}) },
    data: { revokedAt: now() },
  });
  return closed.count;
}

export async function switchRole(tx: Transaction, actor: Person, role: Role): Promise<void> {
  if (!actor.roles.includes(role)) throw new NotFoundError("role");
  await tx.session.update({ where: { id: actor.sessionId }, data: { activeRole: role } });
}

/** What the person's pages and letters are read in from now on. */
export async function chooseLanguage(tx: Transaction, actor: Person, language: Language): Promise<void> {
  await tx.user.update({ where: { id: actor.userId }, data: { language } });
}

/** Makes a link of one use; an older one of the same purpose stops working. @returns its secret, which is stored nowhere */
export async function makeLink(tx: Transaction, user: { id: Id; academyId: Id }, purpose: "invitation" | "reset"): Promise<string> {
  const secret = Buffer.from(crypto.getRandomValues(new Uint8Array(32))).toString("base64url");
  const hours = purpose === "invitation" ? INVITATION_DAYS * 24 : RESET_HOURS;
  const { id: userId, academyId } = user;
  await tx.signInLink.updateMany({ where: { academyId, userId, purpose, usedAt: null }, data: { usedAt: now() } });
  await tx.signInLink.create({
    data: { id: newId(), academyId, userId, purpose, secretHash: hashOfSecret(secret), createdAt: now(), expiresAt: new Date(now().getTime() + hours * 3_600_000) },
  });
  return secret;
}

function refusePassword(field: string, password: string, names: readonly (string | null)[]): void {
  const problem = passwordProblem(password, names);
  if (problem) throw new InvalidError(problem, { [field]: problem });
}

/** Takes a link's one use and sets the password with it; every open session ends. */
export async function acceptLink(tx: Transaction, secret: string, password: string): Promise<void> {
  const link = await tx.signInLink.findUnique({ where: { secretHash: hashOfSecret(secret) }, include: { user: true } });
  const isOpen = link && !link.usedAt && link.expiresAt > now() && !link.user.deactivatedAt;
  if (!isOpen) throw new ConflictError("This link was used already or is too old. Ask for a new one; nothing was changed.");
  refusePassword("password", password, [link.user.displayName, link.user.email, link.user.userName]);
  const taken = await tx.signInLink.updateMany({ where: { id: link.id, usedAt: null }, data: { usedAt: now() } });
  if (taken.count !== 1) throw new ConflictError("This link was used a moment ago. Sign in with the password chosen then.");
  await tx.user.update({ where: { id: link.userId }, data: { passwordHash: await hashPassword(password) } });
  await closeSessions(tx, link.academyId, link.userId);
}

/** A letter with a link goes out if the name belongs to somebody who has mail; nothing tells whether it does. */
export async function askReset(tx: Transaction, name: string): Promise<void> {
  const user = await tx.user.findFirst({ where: { email: name, deactivatedAt: null }, select: { id: true } });
  await tell(tx, letterDue, { userId: user?.id ?? newId(), purpose: "reset" });
}

export async function changePassword(tx: Transaction, actor: Person, given: { currentPassword: string; newPassword: string }): Promise<void> {
  await countTry([{ key: `password of ${actor.userId}`, most: 10 }]);
  const user = await tx.user.findUniqueOrThrow({ where: { id: actor.userId } });
  if (!(await isPassword(user.passwordHash, given.currentPassword))) {
    const problem = "This is not the password you have now.";
    throw new InvalidError(problem, { currentPassword: problem });
  }
  refusePassword("newPassword", given.newPassword, [user.displayName, user.email, user.userName]);
  await tx.user.update({ where: { id: user.id }, data: { passwordHash: await hashPassword(given.newPassword) } });
  await closeSessions(tx, user.academyId, user.id, actor.sessionId);
}

/** Gives a child a user name and a password, or new ones; a login by mail is the player's own and stays. */
export async function setChildLogin(tx: Transaction, actor: Person, child: Granted<ChildSubject, "child-login.make">, given: { userName: string; password: string }): Promise<void> {
  const { academyId, id: playerId } = child;
  refusePassword("password", given.password, [given.userName]);
  const passwordHash = await hashPassword(given.password);
  try {
    if (child.userId) {
      const user = await tx.user.findUniqueOrThrow({ where: { id: child.userId } });
      if (user.email) throw new ConflictError("This player signs in by mail; only the player can change that.");
      await tx.user.update({ where: { id: user.id }, data: { userName: given.userName, passwordHash } });
      await closeSessions(tx, academyId, user.id);
      return;
    }
    const player = await tx.player.findUniqueOrThrow({ where: { id: playerId }, select: { givenName: true, familyName: true } });
    const userId = newId();
    await tx.user.create({
      data: {
        id: userId, academyId, displayName: `${player.givenName} ${player.familyName}`, userName: given.userName, passwordHash,
        roles: { create: { id: newId(), role: "player", from: dayValue(actor.today) } },
      },
    });
    await tx.player.update({ where: { id: playerId }, data: { userId } });
  } catch (error) {
    if (refusedByUnique(error)) {
      const problem = "Somebody has this user name already. Try another, such as one with a number.";
      throw new InvalidError(problem, { userName: problem });
    }
    throw error;
  }
}

/** Invites somebody of the staff; who has a sign-in already gets one more role with it. */
export async function inviteStaff(tx: Transaction, actor: Person, academy: Granted<Subject, "people.manage">, given: { displayName: string; email: string; role: StaffRole }): Promise<Id> {
  const { academyId } = academy;
  const known = await tx.user.findUnique({ where: { email: given.email } });
  if (known && (known.academyId !== academyId || known.deactivatedAt)) {
    const problem = known.academyId === academyId ? "This person's sign-in is closed. Open it again on their page first." : "This mail address cannot be used here.";
    throw new InvalidError(problem, { email: problem });
  }
  if (known) {
    await grantRole(tx, actor, known.id, { role: given.role });
    return known.id;
  }
  const userId = newId();
  await tx.user.create({
    data: {
      id: userId, academyId, displayName: given.displayName, email: given.email,
      roles: { create: { id: newId(), role: given.role, from: dayValue(actor.today) } },
    },
  });
  await tell(tx, letterDue, { userId, purpose: "invitation" });
  return userId;
}

export async function grantRole(tx: Transaction, actor: Person, userId: Id, given: { role: StaffRole; from?: string; until?: string }): Promise<void> {
  const from = given.from ?? actor.today;
  if (given.until && given.until <= from) {
    const problem = "The role must end after the day on which it begins.";
    throw new InvalidError(problem, { until: problem });
  }
  const open = await tx.roleGrant.findFirst({
    where: { academyId: actor.academyId, userId, role: given.role, OR: [{ until: null }, { until: { gt: dayValue(from) } }] },
  });
  if (open) throw new ConflictError("This person has that role already on that day.");
  await tx.roleGrant.create({
    data: { id: newId(), academyId: actor.academyId, userId, role: given.role, from: dayValue(from), until: given.until ? dayValue(given.until) : null },
  });
}

/** Ends a role from a day on, today unless said otherwise; one admin always remains. */
export async function endRole(tx: Transaction, actor: Person, person: Granted<UserSubject, "person.manage">, grantId: Id, until: string | undefined): Promise<void> {
  const grant = await tx.roleGrant.findFirst({ where: { id: grantId, academyId: person.academyId, userId: person.id } });
  if (!grant) throw new NotFoundError("role");
  const last = until ?? actor.today;
  if (grant.until && dayOf(grant.until) <= last) throw new ConflictError("This role ends before that day already.");
  if (grant.role === "admin") await refuseLastAdmin(tx, actor, person.id);
  await tx.roleGrant.update({ where: { id: grant.id }, data: { until: dayValue(last < dayOf(grant.from) ? dayOf(grant.from) : last) } });
}

async function refuseLastAdmin(tx: Transaction, actor: Person, userId: Id): Promise<void> {
  // Two admins who close each other at once wait for one another here.
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtext(${`admins of ${actor.academyId}`}))`;
  const others = await tx.user.count({
    where: {
      academyId: actor.academyId, id: { not: userId }, deactivatedAt: null,
      roles: { some: { role: "admin", until: null, from: roleHolds(dayValue(actor.today)).from } },
    },
  });
  if (others === 0) throw new ConflictError("Somebody must remain admin. Give the role to another person first.");
}

/** Closes a person's sign-in at once: every open session ends with it. */
export async function deactivate(tx: Transaction, actor: Person, person: Granted<UserSubject, "person.manage">): Promise<void> {
  if (person.id === actor.userId) throw new ConflictError("You cannot close your own sign-in. Another admin can.");
  const isAdmin = await tx.roleGrant.count({ where: { academyId: person.academyId, userId: person.id, role: "admin", ...roleHolds(dayValue(actor.today)) } });
  if (isAdmin > 0) await refuseLastAdmin(tx, actor, person.id);
  await tx.user.update({ where: { id: person.id }, data: { deactivatedAt: now() } });
  await closeSessions(tx, person.academyId, person.id);
}

export async function reactivate(tx: Transaction, person: Granted<UserSubject, "person.manage">): Promise<void> {
  await tx.user.update({ where: { id: person.id }, data: { deactivatedAt: null } });
}

/** Sends the invitation once more; the older link stops working. */
export async function inviteAgain(tx: Transaction, person: Granted<UserSubject, "person.manage">): Promise<void> {
  const user = await tx.user.findUniqueOrThrow({ where: { id: person.id } });
  if (!user.email) throw new ConflictError("This person has no mail address. A guardian can set a new password.");
  if (user.deactivatedAt) throw new ConflictError("This sign-in is closed. Open it again first.");
  await tell(tx, letterDue, { userId: user.id, purpose: user.passwordHash ? "reset" : "invitation" });
}
