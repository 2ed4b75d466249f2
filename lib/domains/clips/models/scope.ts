import type { Id } from "@/lib/core/ids";
import { dayOf, dayValue } from "@/lib/core/days";
import type { Database, Prisma } from "@/lib/platform/database";
import type { ModelSubject } from "./policy";
import { keepHindrance, NEEDED_USES } from "./rules";

/** The models that are shown on a day, as a condition on rows: the same answer as `modelState`. */
export function shownOn(day: string): Prisma.ModelSwingWhereInput {
  const holds = { gt: dayValue(day) };
  return { withdrawnAt: null, rightUntil: holds, AND: NEEDED_USES.map((use) => ({ player: { permits: { some: { use, validUntil: holds } } } })) };
}

/** A model of the academy, shown or not, as the policies need to know one; null when there is none. */
export async function findModelSubject(db: Database, academyId: Id, modelId: Id): Promise<ModelSubject | null> {
  return db.modelSwing.findFirst({ where: { id: modelId, academyId }, select: { id: true, academyId: true, playerId: true, swingId: true } });
}

/** Whether a clip is of a swing that was a model and is none that is shown on a day: all that may still be said of it. */
export async function wasModelClip(db: Database, academyId: Id, clipId: Id, day: string): Promise<boolean> {
  const ofClip = { academyId, swing: { clips: { some: { id: clipId } } } };
  const [kept, shown] = [await db.modelSwing.count({ where: ofClip }), await db.modelSwing.count({ where: { ...ofClip, ...shownOn(day) } })];
  return kept > 0 && shown === 0;
}

/** What the head coach's list is made from. */
export const modelRowSelect = {
  id: true, swingId: true, label: true, sport: true, level: true, isAdult: true, heightM: true, task: true, pitchHeight: true, pitchSide: true,
  rightHolder: true, rightBasis: true, rightUntil: true, rightNote: true, recordedById: true, recordedAt: true, withdrawnAt: true,
  player: { select: { permits: { select: { use: true, validUntil: true } } } },
  swing: { select: { side: true, clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, view: true } } } },
} satisfies Prisma.ModelSwingSelect;

export type ModelRowForView = Prisma.ModelSwingGetPayload<{ select: typeof modelRowSelect }>;

/** What a coach chooses from. */
export const modelOptionSelect = {
  id: true, label: true, sport: true, level: true, isAdult: true, heightM: true, task: true, pitchHeight: true, pitchSide: true,
  swing: { select: { side: true, swingKind: true, clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, view: true, isMirrored: true } } } },
} satisfies Prisma.ModelSwingSelect;

/** What the form for keeping a swing begins with, and what may hinder it. */
export const draftSelect = {
  id: true, side: true, swingKind: true, task: true, pitchHeight: true, pitchSide: true, filmedOn: true,
  player: {
    select: { givenName: true, familyName: true, birthDate: true, sport: true, heightM: true, hasLeftSchool: true, permits: { select: { use: true, validUntil: true } } },
  },
  events: { where: { event: "contact", source: "placed" }, take: 1, select: { event: true } },
  clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, view: true } },
  models: { where: { withdrawnAt: null }, select: { id: true } },
} satisfies Prisma.SwingSelect;

type DraftRow = Prisma.SwingGetPayload<{ select: typeof draftSelect }>;

/** The uses for which a consent is in force on a day. */
export function usesOn(permits: readonly { readonly use: string; readonly validUntil: Date }[], day: string): readonly string[] {
  return permits.filter((it) => dayOf(it.validUntil) > day).map(({ use }) => use);
}

/** Why a swing cannot be kept as a model on a day, and what to do; null when it can. */
export function hindranceOn({ player, events, models }: Pick<DraftRow, "player" | "events" | "models">, day: string): string | null {
  const playerName = `${player.givenName} ${player.familyName}`;
  return keepHindrance({ playerName, permittedUses: usesOn(player.permits, day), hasContact: events.length > 0, isKept: models.length > 0 });
}
