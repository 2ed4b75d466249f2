import { isPerson, type Actor } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { markShapeForm } from "@/lib/domains/clips/schema";
import type { MarkShape } from "@/lib/domains/clips/view";
import { keepsItsDrills, whyNotInSeason } from "@/lib/domains/observations/season/rules";
import { readSeasonCase } from "@/lib/domains/observations/season/scope";
import type { Side } from "@/lib/domains/roster/rules";
import type { SeasonNow } from "@/lib/domains/roster/seasons/view";
import { dayIn, dayValue } from "@/lib/core/days";
import type { Database, Prisma } from "@/lib/platform/database";
import type { KeptDrill } from "@/lib/prescribe/drill";
import type { NoteSubject, PlanSubject } from "./policy";

/** Rows of a kind that are sent about a player, such as a note. */
interface SentRows {
  readonly academyId?: string;
  readonly sentAt?: { not: null };
  readonly playerId?: string | { in: string[] };
  readonly id?: { in: string[] };
}

const NO_ROW: SentRows = { id: { in: [] } };

/** What was sent about players and this actor may read: coaches of those they coach today, guardians of their wards, a player of the own. */
export function sentScope(actor: Actor): SentRows {
  if (!isPerson(actor)) return NO_ROW;
  const sent = { academyId: actor.academyId, sentAt: { not: null } };
  switch (actor.role) {
    case "head-coach":
      return sent;
    case "coach":
      return { ...sent, playerId: { in: [...actor.coachedPlayerIds] } };
    case "guardian":
      return { ...sent, playerId: { in: [...actor.wardIds] } };
    case "player":
      return actor.ownPlayerId ? { ...sent, playerId: actor.ownPlayerId } : NO_ROW;
    default:
      return NO_ROW;
  }
}

/** The sent notes that this actor may read: the same answer as the ability "note.see-sent", as a condition on rows. */
export const sentNotesScope = (actor: Actor): Prisma.NoteWhereInput => sentScope(actor);

export async function findPlanSubject(db: Database, academyId: Id, planId: Id): Promise<PlanSubject | null> {
  return db.plan.findFirst({ where: { id: planId, academyId }, select: { id: true, academyId: true, playerId: true } });
}

export async function findNoteSubject(db: Database, academyId: Id, noteId: Id): Promise<NoteSubject | null> {
  const found = await db.note.findFirst({ where: { id: noteId, academyId }, select: { id: true, academyId: true, playerId: true, sentAt: true } });
  return found && { id: found.id, academyId: found.academyId, playerId: found.playerId, isSent: found.sentAt !== null };
}

/** What the family's view of a plan is made from. */
export const planSelect = {
  id: true, playerId: true, side: true, focusId: true, minutesPerDay: true, daysPerWeek: true, startsOn: true, endsOn: true, cue: true, practiceOrder: true, state: true, sentAt: true,
  drills: { orderBy: [{ position: "asc" }, { id: "asc" }] },
} satisfies Prisma.PlanSelect;

/**
 * What the family's view of a note is made from. What only coaches see is no part of it: this is the one place from
 * which family views are fed, and it cannot reach the other table.
 */
export const noteSelect = {
  id: true, academyId: true, playerId: true, side: true, authorId: true, keptWell: true, oneThing: true, why: true, cue: true, forFamily: true, wordsById: true,
  nextCheckOn: true, clipId: true, frameIndex: true, marks: true, sentAt: true,
  plan: { select: planSelect },
  battingSide: { select: { player: { select: { givenName: true, permits: { where: { use: "lesson" }, select: { validUntil: true } } } } } },
  clip: { select: { file: { select: { widthPx: true, heightPx: true } } } },
} satisfies Prisma.NoteSelect;

export type PlanRowForView = Prisma.PlanGetPayload<{ select: typeof planSelect }>;
export type NoteRowForView = Prisma.NoteGetPayload<{ select: typeof noteSelect }>;

/** Names that a letter is signed with, and the academy it comes from. */
export async function readSenders(db: Database, academyId: Id, userIds: readonly Id[]): Promise<{ readonly academyName: string; readonly names: ReadonlyMap<Id, string> }> {
  const { name } = await db.academy.findUniqueOrThrow({ where: { id: academyId }, select: { name: true } });
  const users = await db.user.findMany({ where: { academyId, id: { in: [...new Set(userIds)] } }, select: { id: true, displayName: true } });
  return { academyName: name, names: new Map(users.map((user) => [user.id, user.displayName])) };
}

/** What a coach drew on one frame, as it stands now. */
export async function readMarks(db: Database, academyId: Id, clipId: Id, frameIndex: number): Promise<MarkShape[]> {
  const rows = await db.mark.findMany({ where: { academyId, clipId, frameIndex, removedAt: null }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] });
  return rows.flatMap(({ shape }) => markShapeForm.safeParse(shape).data ?? []);
}

const STILLS_SHOWN = 6;

/** The frames of a side's newest clips on which something is drawn, newest clip first. */
export async function listMarkedFrames(db: Database, academyId: Id, playerId: Id, side: Side) {
  const rows = await db.mark.findMany({
    where: { academyId, removedAt: null, clip: { playerId, swing: { side } } },
    distinct: ["clipId", "frameIndex"],
    orderBy: [{ clip: { swing: { filmedOn: "desc" } } }, { clip: { createdAt: "desc" } }, { clipId: "asc" }, { frameIndex: "asc" }],
    take: STILLS_SHOWN,
    select: { clipId: true, frameIndex: true, clip: { select: { view: true, swing: { select: { id: true, filmedOn: true } } } } },
  });
  return rows.map(({ clipId, frameIndex, clip }) => ({ clipId, frameIndex, view: clip.view, swingId: clip.swing.id, filmedOn: clip.swing.filmedOn }));
}

/** Causes that were said to be there: what some drills wait for. */
export async function readCausesWorkedOn(db: Database, academyId: Id, playerId: Id, side: Side): Promise<string[]> {
  const rows = await db.causeAnswer.findMany({ where: { academyId, playerId, side, isPresent: true, replacedAt: null }, orderBy: { nodeId: "asc" }, select: { nodeId: true } });
  return rows.map(({ nodeId }) => nodeId);
}

/** Every other plan whose swings count towards the same caps: sent, not over, of any side; not the one that is replaced. */
export async function readPlansBeside(db: Database, academyId: Id, playerId: Id, focusId: Id, today: string) {
  return db.plan.findMany({
    where: { academyId, playerId, state: "sent", focusId: { not: focusId }, endsOn: { gte: dayValue(today) } },
    orderBy: { id: "asc" },
    select: { daysPerWeek: true, drills: { orderBy: { position: "asc" }, select: { words: true, timesPerDay: true, swingsPerDay: true, minutesPerDay: true, weekdays: true } } },
  });
}

/** What is in focus on a side, the first slot first. */
export async function readActiveFoci(db: Database, academyId: Id, playerId: Id, side: Side): Promise<{ readonly id: Id; readonly faultId: string }[]> {
  return db.focus.findMany({ where: { academyId, playerId, side, state: "active" }, orderBy: [{ slot: "asc" }, { id: "asc" }], select: { id: true, faultId: true } });
}

/** The newest note that was sent for a focus, with its cue. */
export async function readLastSent(db: Database, academyId: Id, focusId: Id): Promise<{ readonly noteId: Id; readonly at: Date; readonly cue: string } | null> {
  const row = await db.note.findFirst({
    where: { academyId, sentAt: { not: null }, plan: { focusId } },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: { id: true, sentAt: true, cue: true },
  });
  return row?.sentAt ? { noteId: row.id, at: row.sentAt, cue: row.cue } : null;
}

export type MarkedFrame = Awaited<ReturnType<typeof listMarkedFrames>>[number];

/** What the season says of a focus: why it waits, null when it may be worked on; and the drills it keeps, where it keeps any rule of that kind. */
export interface SeasonRule {
  readonly refusal: string | null;
  readonly kept?: readonly KeptDrill[];
}

export async function readSeasonRule(db: Database, of: { readonly academyId: Id; readonly playerId: Id; readonly side: Side }, season: SeasonNow | null, fault: { readonly id: string; readonly area: string } | undefined, timeZone: string): Promise<SeasonRule> {
  const asked = await readSeasonCase(db, of, season, timeZone);
  if (!fault) return { refusal: null };
  const refusal = whyNotInSeason(asked, fault);
  if (!season || !keepsItsDrills(asked, fault)) return { refusal };
  const plans = await db.plan.findMany({
    where: { ...of, sentAt: { not: null }, focus: { faultId: fault.id } },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: { sentAt: true, daysPerWeek: true, drills: { orderBy: { position: "asc" }, select: { drillId: true, timesPerDay: true, minutesPerDay: true, swingsPerDay: true, weekdays: true } } },
  });
  const last = plans.find(({ sentAt }) => sentAt && dayIn(sentAt, timeZone) < season.from);
  return { refusal, kept: last?.drills.map(({ weekdays, ...dose }) => ({ ...dose, daysPerWeek: weekdays.length || last.daysPerWeek })) ?? [] };
}
