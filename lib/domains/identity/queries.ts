import type { z } from "zod";
import { ROLES, type Person, type Role } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { anyone, may, mayInAcademy, signedIn } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { dayOf } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { keptLetters } from "@/lib/platform/mail";
import { settings } from "@/lib/platform/settings";
import { makeChildLogin, managePeople, managePerson } from "./policy";
import { STAFF_ROLES } from "./rules";
import { childForm, linkForm, listPeopleForm, nothingForm, personForm } from "./schema";
import { findChildSubject, findUserSubject, hashOfSecret, openSessions } from "./scope";
import { dayWords } from "./view";
import type { ChildLoginView, LetterView, LinkView, MeView, PersonRow, PersonView, SessionView } from "./view";

const PAGE_ROWS = 50;

/** Who is signed in, in which roles. */
export const getMe = defineQuery({
  name: "identity.get-me",
  input: nothingForm,
  policy: signedIn("everybody may know who they are"),
  run: async ({ actor, db }): Promise<MeView> => {
    const user = await db.user.findUniqueOrThrow({ where: { id: actor.userId }, select: { email: true, userName: true, academy: { select: { name: true } } } });
    return { name: actor.name, academyName: user.academy.name, role: actor.role, roles: actor.roles, signInName: user.email ?? user.userName ?? "" };
  },
});

/** Where the person is signed in now, newest first. */
export const listMySessions = defineQuery({
  name: "identity.list-my-sessions",
  input: nothingForm,
  policy: signedIn("everybody sees their own open sessions"),
  run: async ({ actor, db }): Promise<SessionView[]> => {
    const rows = await db.session.findMany({
      where: { academyId: actor.academyId, userId: actor.userId, ...openSessions(now()) },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      take: PAGE_ROWS,
    });
    return rows.map((row) => ({ id: row.id, device: row.device, since: dayWords(row.createdAt, actor.timeZone), isThisOne: row.id === actor.sessionId }));
  },
});

/** What a link from a letter opens; a secret that fits nothing, was used or is too old opens nothing. */
export const getLink = defineQuery({
  name: "identity.get-link",
  input: linkForm,
  policy: anyone<z.infer<typeof linkForm>>("who follows a link from a letter has no password yet, or lost it"),
  run: async ({ input, db }): Promise<LinkView> => {
    const link = await db.signInLink.findUnique({
      where: { secretHash: hashOfSecret(input.secret) },
      include: { user: { select: { displayName: true, email: true, userName: true, deactivatedAt: true, academy: { select: { name: true } } } } },
    });
    if (!link || link.usedAt || link.expiresAt <= now() || link.user.deactivatedAt) return { is: "gone" };
    return {
      is: "open",
      purpose: link.purpose === "reset" ? "reset" : "invitation",
      name: link.user.displayName,
      academyName: link.user.academy.name,
      signInName: link.user.email ?? link.user.userName ?? "",
    };
  },
});

/** How a child signs in, for the child's guardian. */
export const getChildLogin = defineQuery({
  name: "identity.get-child-login",
  input: childForm,
  policy: may(makeChildLogin, (input: { playerId: Id }, db: Database, actor: Person) => findChildSubject(db, actor.academyId, input.playerId)),
  run: async ({ granted, db }): Promise<ChildLoginView> => {
    const player = await db.player.findUniqueOrThrow({ where: { id: granted.id }, select: { givenName: true, user: { select: { email: true, userName: true } } } });
    return { playerId: granted.id, givenName: player.givenName, userName: player.user?.userName ?? null, hasOwnMail: Boolean(player.user?.email) };
  },
});

const staffSelect = () => ({
  id: true, displayName: true, email: true, passwordHash: true, deactivatedAt: true,
  roles: { orderBy: [{ from: "desc" as const }, { id: "asc" as const }] },
  sessions: { where: openSessions(now()), select: { id: true } },
});

interface StaffRow {
  readonly id: Id;
  readonly displayName: string;
  readonly email: string | null;
  readonly passwordHash: string | null;
  readonly deactivatedAt: Date | null;
  readonly roles: readonly { readonly id: Id; readonly role: string; readonly from: Date; readonly until: Date | null }[];
}

function personRow(row: StaffRow, today: string): PersonRow & { grants: PersonView["grants"] } {
  const grants = row.roles.map((grant) => {
    const [from, until] = [dayOf(grant.from), grant.until ? dayOf(grant.until) : null];
    return { id: grant.id, role: grant.role as Role, from, until, isNow: from <= today && (until === null || until > today) };
  });
  return {
    id: row.id,
    name: row.displayName,
    email: row.email,
    roles: ROLES.filter((role) => grants.some((grant) => grant.role === role && grant.isNow)),
    hasSignedUp: row.passwordHash !== null,
    isDeactivated: row.deactivatedAt !== null,
    grants,
  };
}

/** The staff: everybody who holds or held a role that the office gives, by name. */
export const listPeople = defineQuery({
  name: "identity.list-people",
  input: listPeopleForm,
  policy: mayInAcademy<z.infer<typeof listPeopleForm>, "people.manage">(managePeople),
  run: async ({ actor, input, db }): Promise<{ rows: PersonRow[]; next: Id | null }> => {
    const found = await db.user.findMany({
      where: { academyId: actor.academyId, roles: { some: { role: { in: [...STAFF_ROLES] } } } },
      orderBy: [{ displayName: "asc" }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: staffSelect(),
    });
    const rows = found.slice(0, PAGE_ROWS).map((row) => {
      const { grants: _grants, ...person } = personRow(row, actor.today);
      return person;
    });
    return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});

/** One person of the academy, as the office sees them. */
export const getPerson = defineQuery({
  name: "identity.get-person",
  input: personForm,
  policy: may(managePerson, (input: { userId: Id }, db: Database, actor: Person) => findUserSubject(db, actor.academyId, input.userId)),
  run: async ({ actor, granted, db }): Promise<PersonView> => {
    const row = await db.user.findUniqueOrThrow({ where: { id: granted.id }, select: staffSelect() });
    const person = personRow(row, actor.today);
    return {
      ...person,
      grantable: STAFF_ROLES.filter((role) => !person.roles.includes(role)),
      isMe: granted.id === actor.userId,
      openSessionCount: row.sessions.length,
    };
  },
});

/** Letters that were kept for want of a mail server; only a demo without one has this page. */
export const listKeptLetters = defineQuery({
  name: "identity.list-kept-letters",
  input: nothingForm,
  policy: anyone("a demo without a mail server shows its letters to whoever tries it; elsewhere there is nothing here"),
  run: async (): Promise<LetterView[]> => {
    if (settings().DEMO !== "on" || settings().MAIL_URL) throw new NotFoundError();
    const letters = await keptLetters(30);
    return letters.map(({ to, subject, text, at }) => ({ to, subject, text, at, link: /https?:\/\/\S+/.exec(text)?.[0] ?? null }));
  },
});
