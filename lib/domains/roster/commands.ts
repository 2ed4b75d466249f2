import type { z } from "zod";
import type { Granted, Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { letterDue } from "@/lib/domains/identity/events";
import { dayOf, dayValue, daysAfter } from "@/lib/core/days";
import { now, todayIn } from "@/lib/platform/clock";
import { refusedByUnique, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { noticeWritten } from "./events";
import type { PlayerSubject } from "./policy";
import {
  birthDateProblem, CONSENT_MOST_DAYS, CONSENT_WORDS_VERSION, consentDaysProblem, isAdultOn, isCleared, sidesOf, type Bats, type BodyPart, type ConsentUse,
} from "./rules";
import type {
  addGuardianForm, addPlayerForm, assignCoachForm, editPlayerForm, homeSetupForm, recordConsentForm, reportPainForm,
} from "./schema";
import { openPause, spanHolds } from "./scope";

type Given<Form extends z.ZodType> = z.infer<Form>;

/** Refuses with one sentence that belongs to one field. */
function refuse(field: string, problem: string | null): void {
  if (problem) throw new InvalidError(problem, { [field]: problem });
}

/** What the database refuses as double, although it was not there a moment ago, is refused in the same words. */
async function once<T>(write: Promise<T>, sentence: string): Promise<T> {
  try {
    return await write;
  } catch (error) {
    if (refusedByUnique(error)) throw new ConflictError(sentence);
    throw error;
  }
}

export function refuseLeft(player: PlayerSubject): void {
  if (player.hasLeft) throw new ConflictError("This player has left the academy. Take the player back first; nothing was changed.");
}

export async function todayAt(tx: Transaction, player: { id: Id }): Promise<string> {
  const { location } = await tx.player.findUniqueOrThrow({ where: { id: player.id }, select: { location: { select: { timeZone: true } } } });
  return todayIn(location.timeZone);
}

export async function addPlayer(tx: Transaction, academy: Granted<Subject, "roster.manage">, given: Given<typeof addPlayerForm>): Promise<Id> {
  const { academyId } = academy;
  const location = await tx.location.findFirst({ where: { id: given.locationId, academyId } });
  if (!location) throw new InvalidError("Choose where this player trains.", { locationId: "Choose where this player trains." });
  refuse("birthDate", birthDateProblem(given.birthDate, todayIn(location.timeZone)));
  refuse("isSlapper", slapperProblem(given));
  const { givenName, familyName, sport, bats, heightM } = given;
  const id = newId();
  await tx.player.create({
    data: { id, academyId, locationId: location.id, givenName, familyName, birthDate: dayValue(given.birthDate), sport, bats, heightM },
  });
  await tx.battingSide.createMany({ data: sidesOf(bats).map((side) => ({ academyId, playerId: id, side, isSlapper: side === "left" && given.isSlapper })) });
  return id;
}

function slapperProblem(given: { isSlapper: boolean; bats: Bats; sport: string }): string | null {
  if (!given.isSlapper) return null;
  if (given.bats === "right") return "Only who bats from the left side slaps.";
  return given.sport === "softball" ? null : "Slapping belongs to softball.";
}

/** Keeps what is known of a player. A new batting side begins a record; one that is no longer batted keeps its own. */
export async function editPlayer(tx: Transaction, player: Granted<PlayerSubject, "player.edit">, given: Given<typeof editPlayerForm>): Promise<void> {
  refuse("birthDate", birthDateProblem(given.birthDate, await todayAt(tx, player)));
  refuse("isSlapper", slapperProblem(given));
  const { id, academyId } = player;
  const { givenName, familyName, sport, bats, heightM, hasLeftSchool } = given;
  await tx.player.update({ where: { id }, data: { givenName, familyName, birthDate: dayValue(given.birthDate), sport, bats, heightM, hasLeftSchool } });
  for (const side of sidesOf(bats)) {
    const isSlapper = side === "left" && given.isSlapper;
    await tx.battingSide.upsert({
      where: { academyId_playerId_side: { academyId, playerId: id, side } },
      create: { academyId, playerId: id, side, isSlapper },
      update: { isSlapper },
    });
  }
}

/** The player leaves: coaches lose the player today, the own sign-in ends, the record stays. */
export async function leaveAcademy(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.edit">): Promise<void> {
  refuseLeft(player);
  await tx.player.update({ where: { id: player.id }, data: { leftAt: now() } });
  const today = dayValue(actor.today);
  const open = { academyId: player.academyId, playerId: player.id, OR: [{ until: null }, { until: { gt: today } }] };
  await tx.assignment.deleteMany({ where: { ...open, from: { gt: today } } });
  await tx.assignment.updateMany({ where: open, data: { until: today } });
}

export async function takeBack(tx: Transaction, player: Granted<PlayerSubject, "player.edit">): Promise<void> {
  await tx.player.update({ where: { id: player.id }, data: { leftAt: null } });
}

/** Finds the sign-in of a mail address or makes one with an invitation; gives it the role where it lacks it. */
async function loginFor(tx: Transaction, actor: Person, given: { email: string; displayName: string }, role: "guardian" | "player"): Promise<Id> {
  const { academyId } = actor;
  const known = await tx.user.findUnique({ where: { email: given.email }, include: { roles: { where: { role, until: null } } } });
  if (known && known.academyId !== academyId) refuse("email", "This mail address cannot be used here.");
  if (known?.deactivatedAt) refuse("email", "The sign-in of this address is closed. Open it again under People first.");
  const grant = { id: newId(), role, from: dayValue(actor.today) };
  if (!known) {
    const id = newId();
    const data = { id, academyId, displayName: given.displayName, email: given.email, roles: { create: grant } };
    await once(tx.user.create({ data }), "This address was added a moment ago. Look again.");
    await tell(tx, letterDue, { userId: id, purpose: "invitation" });
    return id;
  }
  if (known.roles.length === 0) await tx.roleGrant.create({ data: { ...grant, academyId, userId: known.id } });
  return known.id;
}

export async function addGuardian(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.manage-guardians">, given: Given<typeof addGuardianForm>): Promise<void> {
  const { academyId, id: playerId } = player;
  const userId = await loginFor(tx, actor, given, "guardian");
  const own = await tx.player.count({ where: { id: playerId, userId } });
  if (own > 0) refuse("email", "This is the player's own address. A guardian is somebody else.");
  const already = await tx.guardianship.count({ where: { academyId, playerId, userId, ...spanHolds(dayValue(actor.today)) } });
  const sentence = "This person is a guardian of this player already.";
  if (already > 0) throw new ConflictError(sentence);
  await once(tx.guardianship.create({ data: { id: newId(), academyId, playerId, userId, relation: given.relation, from: dayValue(actor.today) } }), sentence);
}

/** From today on this guardian sees nothing more of this player; other children of the same login stay. */
export async function endGuardianship(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.manage-guardians">, guardianshipId: Id): Promise<void> {
  const found = await tx.guardianship.findFirst({ where: { id: guardianshipId, academyId: player.academyId, playerId: player.id } });
  if (!found) throw new NotFoundError("guardian");
  await tx.guardianship.update({ where: { id: found.id }, data: { until: dayValue(actor.today) } });
}

/** An adult player gets a sign-in by mail of their own; a minor's is made by a guardian. */
export async function invitePlayer(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.edit">, email: string): Promise<void> {
  refuseLeft(player);
  if (!isAdultOn(player.birthDate, await todayAt(tx, player))) {
    throw new ConflictError("This player is a minor: a guardian makes the player's user name on the family's pages.");
  }
  const { givenName, familyName, userId } = await tx.player.findUniqueOrThrow({ where: { id: player.id } });
  if (userId) throw new ConflictError("This player has a sign-in already.");
  const login = await loginFor(tx, actor, { email, displayName: `${givenName} ${familyName}` }, "player");
  await once(tx.player.update({ where: { id: player.id }, data: { userId: login } }), "Another player has this address already.");
}

async function refuseNoCoach(tx: Transaction, actor: Person, userId: Id, field: string): Promise<void> {
  const isCoach = await tx.user.count({
    where: { id: userId, academyId: actor.academyId, deactivatedAt: null, roles: { some: { role: { in: ["coach", "head-coach"] }, ...spanHolds(dayValue(actor.today)) } } },
  });
  if (isCoach === 0) refuse(field, "Choose somebody who coaches here today.");
}

export async function assignCoach(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.assign-coaches">, given: Given<typeof assignCoachForm>): Promise<void> {
  refuseLeft(player);
  await refuseNoCoach(tx, actor, given.userId, "userId");
  const from = given.from ?? actor.today;
  if (given.until && given.until <= from) refuse("until", "It must end after the day on which it begins.");
  const { academyId, id: playerId } = player;
  const overlapping = await tx.assignment.count({
    where: {
      academyId, playerId, userId: given.userId, OR: [{ until: null }, { until: { gt: dayValue(from) } }],
      ...(given.until ? { from: { lt: dayValue(given.until) } } : {}),
    },
  });
  const sentence = "This coach is assigned to this player on those days already.";
  if (overlapping > 0) throw new ConflictError(sentence);
  const data = { id: newId(), academyId, playerId, userId: given.userId, from: dayValue(from), until: given.until ? dayValue(given.until) : null };
  await once(tx.assignment.create({ data }), sentence);
}

/** Ends an assignment from a day on, today unless said otherwise: on that day the coach no longer sees the player. */
export async function endAssignment(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.assign-coaches">, assignmentId: Id, until: string | undefined): Promise<void> {
  const found = await tx.assignment.findFirst({ where: { id: assignmentId, academyId: player.academyId, playerId: player.id } });
  if (!found) throw new NotFoundError("assignment");
  const end = until ?? actor.today;
  if (end < dayOf(found.from)) {
    // It had not begun: nothing of it remains to be kept.
    await tx.assignment.delete({ where: { id: found.id } });
    return;
  }
  await tx.assignment.update({ where: { id: found.id }, data: { until: dayValue(end) } });
}

/** Hands every player of one coach to another, from today on. @returns how many went over */
export async function reassignPlayers(tx: Transaction, actor: Person, academy: Granted<Subject, "roster.manage">, fromUserId: Id, toUserId: Id): Promise<number> {
  if (fromUserId === toUserId) refuse("toUserId", "Choose another coach.");
  await refuseNoCoach(tx, actor, toUserId, "toUserId");
  const { academyId } = academy;
  const today = dayValue(actor.today);
  const open = { academyId, OR: [{ until: null }, { until: { gt: today } }] };
  const held = await tx.assignment.findMany({ where: { ...open, userId: fromUserId } });
  const taken = await tx.assignment.findMany({ where: { ...open, userId: toUserId }, select: { playerId: true } });
  const has = new Set(taken.map(({ playerId }) => playerId));
  await tx.assignment.deleteMany({ where: { ...open, userId: fromUserId, from: { gt: today } } });
  await tx.assignment.updateMany({ where: { ...open, userId: fromUserId }, data: { until: today } });
  const going = [...new Set(held.map(({ playerId }) => playerId))].filter((playerId) => !has.has(playerId));
  await tx.assignment.createMany({ data: going.map((playerId) => ({ id: newId(), academyId, playerId, userId: toUserId, from: today, until: null })) });
  return going.length;
}

/** Keeps a yes: signed in by who decides for the family, or on paper by the office. */
export async function recordConsent(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.record-consent">, given: Given<typeof recordConsentForm>): Promise<void> {
  refuseLeft(player);
  const { academyId, id: playerId } = player;
  const isPaper = actor.role === "admin";
  const today = await todayAt(tx, player);
  const givenOn = isPaper ? (given.givenOn ?? today) : today;
  const validUntil = given.validUntil ?? daysAfter(givenOn, CONSENT_MOST_DAYS);
  refuse(given.validUntil ? "validUntil" : "givenOn", consentDaysProblem(givenOn, validUntil, today));
  const givenById = isPaper ? (given.givenById ?? null) : actor.userId;
  if (isPaper && givenById) {
    const isGuardian = await tx.guardianship.count({ where: { academyId, playerId, userId: givenById } });
    if (isGuardian === 0) refuse("givenById", "Choose one of this player's guardians.");
  }
  await tx.consent.create({
    data: {
      id: newId(), academyId, playerId, use: given.use, givenById, recordedById: actor.userId, method: isPaper ? "paper" : "signed-in",
      wordsVersion: CONSENT_WORDS_VERSION, givenOn: dayValue(givenOn), validUntil: dayValue(validUntil),
    },
  });
}

/** Ends every consent of a use at once; what may be shown follows in the same transaction. */
export async function withdrawConsent(tx: Transaction, player: Granted<PlayerSubject, "player.withdraw-consent">, use: ConsentUse): Promise<void> {
  const { academyId, id: playerId } = player;
  const ended = await tx.consent.updateMany({ where: { academyId, playerId, use, withdrawnAt: null }, data: { withdrawnAt: now() } });
  if (ended.count === 0) throw new ConflictError("There is no such consent in force. Nothing was changed.");
}

export async function setHomeSetup(tx: Transaction, player: Granted<PlayerSubject, "player.set-home">, given: Given<typeof homeSetupForm>): Promise<void> {
  const { playerId, ...home } = given;
  const { academyId } = player;
  await tx.homeSetup.upsert({ where: { academyId_playerId: { academyId, playerId } }, create: { academyId, playerId, ...home }, update: home });
}

export async function recordComplaint(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.record-complaint">, part: BodyPart): Promise<void> {
  refuseLeft(player);
  const { academyId, id: playerId } = player;
  const open = await tx.complaint.count({ where: { academyId, playerId, part, until: null } });
  const sentence = `A complaint of the ${part} is kept already.`;
  if (open > 0) throw new ConflictError(sentence);
  const since = dayValue(await todayAt(tx, player));
  await once(tx.complaint.create({ data: { id: newId(), academyId, playerId, part, since, recordedById: actor.userId } }), sentence);
}

export async function endComplaint(tx: Transaction, player: Granted<PlayerSubject, "player.record-complaint">, complaintId: Id): Promise<void> {
  const ended = await tx.complaint.updateMany({
    where: { id: complaintId, academyId: player.academyId, playerId: player.id, until: null },
    data: { until: dayValue(await todayAt(tx, player)) },
  });
  if (ended.count === 0) throw new NotFoundError("complaint");
}

/** Everybody who must hear of a player's pain or of an incident: coaches assigned today, head coaches, guardians, the grown-up player. */
export async function whoHears(tx: Transaction, actor: Person, player: PlayerSubject): Promise<Id[]> {
  const { academyId, id: playerId } = player;
  const holds = spanHolds(dayValue(actor.today));
  const users = await tx.user.findMany({
    where: {
      academyId,
      deactivatedAt: null,
      OR: [
        { assignments: { some: { playerId, ...holds } }, roles: { some: { role: "coach", ...holds } } },
        { roles: { some: { role: "head-coach", ...holds } } },
        { guardianships: { some: { playerId, ...holds } } },
        ...(isAdultOn(player.birthDate, actor.today) ? [{ player: { id: playerId } }] : []),
      ],
    },
    select: { id: true },
  });
  return users.map(({ id }) => id).filter((id) => id !== actor.userId);
}

export async function writeNotices(tx: Transaction, player: { academyId: Id; id: Id }, userIds: readonly Id[], kind: string, subjectId: Id): Promise<void> {
  const { academyId, id: playerId } = player;
  await tx.notice.createMany({
    data: userIds.map((userId) => ({ id: newId(), academyId, userId, playerId, kind, subjectId, createdAt: now() })),
    skipDuplicates: true,
  });
  for (const userId of userIds) await tell(tx, noticeWritten, { userId }, { key: `notice ${userId}` });
}

/** Pain stops swings: the report, the pause and the notices are one transaction. */
export async function reportPain(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.report-pain">, given: Given<typeof reportPainForm>): Promise<Id> {
  refuseLeft(player);
  const { academyId, id: playerId } = player;
  const { part, level, words } = given;
  const reportId = newId();
  await tx.painReport.create({ data: { id: reportId, academyId, playerId, part, level, words, reportedById: actor.userId, reportedAt: now() } });
  const pause = await tx.pause.create({ data: { id: newId(), academyId, playerId, painReportId: reportId, startedAt: now() } });
  await writeNotices(tx, player, await whoHears(tx, actor, player), "pain-reported", pause.id);
  return pause.id;
}

/** One side clears a pause; it ends when both have. @returns whether it has ended */
export async function clearPause(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "player.clear-pause-as-coach"> | Granted<PlayerSubject, "player.clear-pause-as-family">, pauseId: Id, side: "coach" | "family", clinicianSaidOn?: string): Promise<boolean> {
  await tx.$executeRaw`SELECT 1 FROM "Pause" WHERE "id" = ${pauseId}::uuid FOR UPDATE`;
  const pause = await tx.pause.findFirst({ where: { id: pauseId, academyId: player.academyId, playerId: player.id, ...openPause }, include: { incident: { select: { kind: true, happenedOn: true } } } });
  if (!pause) throw new NotFoundError("pause");
  if ((side === "coach" ? pause.familyClearedById : pause.coachClearedById) === actor.userId) {
    throw new ConflictError("You cleared the other side already. Somebody else must clear this one; swings stay paused.");
  }
  const { incident } = pause;
  const isHeadBlow = incident?.kind === "head-blow";
  if (side === "family" && isHeadBlow) refuse("clinicianSaidOn", clinicianProblem(clinicianSaidOn, dayOf(incident.happenedOn), await todayAt(tx, player)));
  const cleared =
    side === "coach"
      ? { coachClearedAt: now(), coachClearedById: actor.userId }
      : { familyClearedAt: now(), familyClearedById: actor.userId, clinicianSaidOn: isHeadBlow && clinicianSaidOn ? dayValue(clinicianSaidOn) : null };
  const isOver = isCleared({ ...pause, ...cleared });
  await tx.pause.update({ where: { id: pause.id }, data: { ...cleared, endedAt: isOver ? now() : null } });
  await writeNotices(tx, player, await whoHears(tx, actor, player), isOver ? "pause-ended" : `pause-cleared-by-${side}`, pause.id);
  return isOver;
}

/** After a blow to the head nobody clears the return but a licensed clinician: the family says on which day that was. */
function clinicianProblem(saidOn: string | undefined, happenedOn: string, today: string): string | null {
  if (!saidOn) return "After a blow to the head a licensed clinician says yes first. Write the day on which that was said; swings stay paused.";
  return saidOn < happenedOn || saidOn > today ? "That day lies before it happened, or is still to come. Swings stay paused." : null;
}

export async function readNotice(tx: Transaction, actor: Person, noticeId: Id): Promise<void> {
  await tx.notice.updateMany({ where: { id: noticeId, academyId: actor.academyId, userId: actor.userId, readAt: null }, data: { readAt: now() } });
}
