import { isPerson, type Actor } from "@/lib/access/actor";
import { dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { openPause, playersScope, spanHolds } from "@/lib/domains/roster/scope";
import type { Database, Prisma } from "@/lib/platform/database";
import { permitSelect, permittedOn } from "../scope";
import type { SentSubject } from "./policy";

export async function findSentSubject(db: Database, academyId: Id, sentId: Id, today: string): Promise<SentSubject | null> {
  const row = await db.sentClip.findFirst({ where: { id: sentId, academyId }, select: { id: true, academyId: true, playerId: true, upload: { select: { player: { select: permitSelect(today) } } } } });
  return row && { id: row.id, academyId: row.academyId, playerId: row.playerId, isPermitted: row.upload.player.permits.length > 0 };
}

/** The player as far as sending goes: a consent in force, an open pause. */
export async function readSender(db: Database, academyId: Id, playerId: Id, today: string) {
  const { permits, pauses, sides, ...row } = await db.player.findUniqueOrThrow({
    where: { academyId_id: { academyId, id: playerId } },
    select: { givenName: true, leftAt: true, sides: { orderBy: { side: "desc" }, select: { side: true } }, pauses: { where: openPause, select: { id: true } }, ...permitSelect(today) },
  });
  return { ...row, sides: sides.map(({ side }) => side as "right" | "left"), isPermitted: permits.length > 0, isPaused: pauses.length > 0 };
}

/** Clips that are here and not answered, of players whom the actor teaches and who may be filmed today. */
export function waitingScope(actor: Actor): Prisma.SentClipWhereInput {
  const isCoach = isPerson(actor) && (actor.role === "coach" || actor.role === "head-coach");
  if (!isCoach) return { id: { in: [] } };
  return { academyId: actor.academyId, answeredAt: null, upload: { state: "ready", clipId: { not: null }, player: { AND: [playersScope(actor), permittedOn(actor.today), { leftAt: null }] } } };
}

export const sentSelect = {
  id: true, playerId: true, words: true, sentAt: true, lookedAt: true, answeredAt: true, answeredById: true, answer: true, clipId: true, frameIndex: true, marks: true, walkthroughId: true,
  upload: { select: { id: true, state: true, refusal: true, canRetry: true, clipId: true, finishedAt: true } },
} satisfies Prisma.SentClipSelect;
export type SentRowForView = Prisma.SentClipGetPayload<{ select: typeof sentSelect }>;

/** The newest clip that was sent and whose film is this swing's, with all clips of the swing; null when a coach filmed it. */
export async function findSentOfSwing(db: Database, academyId: Id, swingId: Id) {
  return db.sentClip.findFirst({
    where: { academyId, upload: { state: "ready", clip: { swingId } } },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: {
      ...sentSelect,
      upload: { select: { finishedAt: true, player: { select: { givenName: true } }, clip: { select: { swing: { select: { id: true, clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true } } } } } } } },
    },
  });
}

const MOST_AT_ONCE = 200;

/** Clips of all academies that are here since before an instant, neither answered nor reminded of, with whether they may be watched. */
export async function readOverdue(db: Database, hereBefore: Date, todayAt: (timeZone: string) => string): Promise<readonly (SentSubject & { readonly today: string })[]> {
  const rows = await db.sentClip.findMany({
    where: { answeredAt: null, remindedAt: null, upload: { state: "ready", finishedAt: { lte: hereBefore }, player: { leftAt: null } } },
    orderBy: [{ sentAt: "asc" }, { id: "asc" }],
    take: MOST_AT_ONCE,
    select: { id: true, academyId: true, playerId: true, upload: { select: { player: { select: { location: { select: { timeZone: true } }, permits: { where: { use: "lesson" }, select: { validUntil: true } } } } } } },
  });
  return rows.map(({ upload: { player }, ...row }) => {
    const today = todayAt(player.location.timeZone);
    return { ...row, today, isPermitted: player.permits.some(({ validUntil }) => validUntil > dayValue(today)) };
  });
}

/** Who answers a player's clips on a day: the coaches assigned then, else the head coaches. */
export async function readAnswerers(db: Database, academyId: Id, playerId: Id, today: string): Promise<readonly Id[]> {
  const holds = spanHolds(dayValue(today));
  const find = async (where: Prisma.UserWhereInput) => (await db.user.findMany({ where: { academyId, deactivatedAt: null, ...where }, orderBy: { id: "asc" }, select: { id: true } })).map(({ id }) => id);
  const assigned = await find({ assignments: { some: { playerId, ...holds } }, roles: { some: { role: { in: ["coach", "head-coach"] }, ...holds } } });
  return assigned.length > 0 ? assigned : find({ roles: { some: { role: "head-coach", ...holds } } });
}
