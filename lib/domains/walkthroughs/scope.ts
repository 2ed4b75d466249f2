import { createHash } from "node:crypto";
import type { Actor } from "@/lib/access/actor";
import { dayIn, dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { shownOn } from "@/lib/domains/clips/models/scope";
import { permitSelect, permittedOn, readSwingPage } from "@/lib/domains/clips/scope";
import type { BattingSide, ClipView } from "@/lib/domains/clips/view";
import { readSenders, sentScope } from "@/lib/domains/plans/scope";
import type { Database, Prisma } from "@/lib/platform/database";
import { readList } from "./list/schema";
import type { TakeSubject, WalkthroughSubject } from "./policy";
import { cuesForm, walkthroughAddress } from "./schema";
import { notShownWords, type ChapterView, type ClipShown, type Looker, type TakeView, type WalkthroughView } from "./view";

/** The walkthroughs that were sent and that this actor may read: the same answer as "walkthrough.see-sent", as a condition on rows. */
export const sentWalkthroughsScope = (actor: Actor): Prisma.WalkthroughWhereInput => sentScope(actor);

const subjectSelect = (today: string) =>
  ({
    id: true, academyId: true, playerId: true, sentAt: true,
    player: { select: permitSelect(today) },
  }) satisfies Prisma.WalkthroughSelect;

const subjectOf = ({ player, sentAt, ...row }: Prisma.WalkthroughGetPayload<{ select: ReturnType<typeof subjectSelect> }>): WalkthroughSubject => ({
  ...row, isSent: sentAt !== null, isPermitted: player.permits.length > 0,
});

export async function findWalkthroughSubject(db: Database, where: { id: Id; academyId?: Id }, today: string): Promise<WalkthroughSubject | null> {
  const row = await db.walkthrough.findFirst({ where, select: subjectSelect(today) });
  return row && subjectOf(row);
}

export async function findTakeSubject(db: Database, academyId: Id, takeId: Id, today: string): Promise<TakeSubject | null> {
  const row = await db.walkthroughTake.findFirst({ where: { id: takeId, academyId }, select: { recordedById: true, voiceState: true, walkthrough: { select: subjectSelect(today) } } });
  return row && { ...subjectOf(row.walkthrough), takeId, recordedById: row.recordedById, voiceState: row.voiceState };
}

interface Decided {
  readonly swingId: Id;
  readonly model: { readonly id: Id; readonly label: string } | null;
  /** Why it is not shown; null when it is. */
  readonly why: string | null;
}

/** What each clip shows to somebody today: of the player while filming is permitted, a model to coaches while its right holds. */
export async function readClipsShown(db: Database, { academyId, playerId }: { academyId: Id; playerId: Id }, clipIds: readonly Id[], looker: Looker, today: string): Promise<Record<Id, ClipShown>> {
  const rows = await db.clip.findMany({
    where: { academyId, id: { in: [...clipIds] } },
    select: { id: true, playerId: true, swingId: true, swing: { select: { models: { where: shownOn(today), select: { id: true, label: true } } } } },
  });
  const isPermitted = (await db.player.count({ where: { id: playerId, academyId, ...permittedOn(today) } })) > 0;
  const decided = new Map(
    rows.map((row): [Id, Decided] => {
      const { id, swingId, playerId: ownerId } = row;
      const [model = null] = row.swing.models;
      if (ownerId === playerId) return [id, { swingId, model: null, why: isPermitted ? null : notShownWords["no-consent"] }];
      if (!model) return [id, { swingId, model, why: notShownWords["model-ended"] }];
      return [id, { swingId, model, why: looker === "coach" ? null : notShownWords["model-for-coaches"] }];
    }),
  );
  const views = new Map<Id, ClipView>();
  for (const swingId of new Set([...decided.values()].flatMap(({ swingId, why }) => (why === null ? [swingId] : [])))) {
    for (const { clip } of (await readSwingPage(db, swingId, today)).clips) views.set(clip.id, clip);
  }
  return Object.fromEntries(
    clipIds.map((id): [Id, ClipShown] => {
      const it = decided.get(id);
      const clip = views.get(id);
      const isModel = rows.some((row) => row.id === id && row.playerId !== playerId);
      if (!it || (it.why === null && !clip)) return [id, { clip: null, why: notShownWords.gone, isModel }];
      if (it.why !== null || !clip) return [id, { clip: null, why: it.why, isModel }];
      const whose = it.model ? { playerId: it.model.id, playerName: it.model.label } : {};
      // Marks are those of the talk; a walkthrough is looked at, not worked on.
      return [id, { clip: { ...clip, ...whose, marks: [], unseenPoints: [], abilities: { canMeasure: false, canMark: false } }, why: null, isModel }];
    }),
  );
}

const walkthroughSelect = {
  id: true, academyId: true, playerId: true, side: true, title: true, summary: true, noteId: true, createdById: true, createdAt: true, sentAt: true, filmState: true, filmOf: true,
  player: { select: { givenName: true, permits: { where: { use: "lesson" }, select: { validUntil: true } } } },
  takes: { orderBy: [{ recordedAt: "asc" }, { id: "asc" }], select: { id: true, list: true, durationMs: true, voiceKey: true, voiceMs: true, cues: true } },
  chapters: { orderBy: [{ position: "asc" }, { id: "asc" }] },
  clips: { orderBy: { clipId: "asc" }, select: { clipId: true } },
} satisfies Prisma.WalkthroughSelect;

/** A walkthrough with all that is needed to replay it, as one may see it today. */
export async function readWalkthrough(db: Database, id: Id, looker: Looker, { today, timeZone }: { readonly today: string; readonly timeZone: string }): Promise<WalkthroughView> {
  const row = await db.walkthrough.findUniqueOrThrow({ where: { id }, select: walkthroughSelect });
  const { academyId, playerId } = row;
  const { names } = await readSenders(db, academyId, [row.createdById]);
  const isPermitted = row.player.permits.some((permit) => permit.validUntil > dayValue(today));
  const told = new Set(row.chapters.map(({ takeId }) => takeId));
  const takes = row.takes.flatMap((take): TakeView[] =>
    told.has(take.id)
      ? [{
          id: take.id, list: readList(take.list), durationMs: take.durationMs, voiceMs: take.voiceMs, cues: cuesForm.safeParse(take.cues).data ?? [],
          voiceUrl: take.voiceKey && isPermitted ? walkthroughAddress.voice(take.id) : null,
        }]
      : [],
  );
  const hasPoints = takes.some(({ list }) => list?.start.hasPoints || list?.happenings.some((it) => it.kind === "points" && it.hasPoints));
  const shown = await readClipsShown(db, { academyId, playerId }, row.clips.map(({ clipId }) => clipId), looker, today);
  const clips = hasPoints ? shown : Object.fromEntries(Object.entries(shown).map(([clipId, it]) => [clipId, it.clip ? { ...it, clip: { ...it.clip, points: [] } } : it]));
  const sights = looker === "coach" ? await readSights(db, academyId, row.chapters) : new Map<string, ChapterView["sight"]>();
  const chapters = row.chapters.map(({ id: chapterId, takeId, fromMs, toMs, title, aboutKind, aboutId, swingId }): ChapterView => ({
    id: chapterId, takeId, fromMs, toMs, title,
    about: aboutKind && aboutId ? { kind: aboutKind as "checkpoint" | "fault" | "drill", id: aboutId } : null,
    swingId: looker === "coach" ? swingId : null,
    sight: sights.get(`${swingId} ${aboutId}`) ?? null,
  }));
  const view = {
    id: row.id, playerId, givenName: row.player.givenName, side: row.side as BattingSide, title: row.title, summary: row.summary, noteId: row.noteId, isPermitted, chapters, takes, clips,
    from: names.get(row.createdById) ?? "A coach", madeOn: dayIn(row.createdAt, timeZone), sentOn: row.sentAt && dayIn(row.sentAt, timeZone),
  };
  const state = row.filmState as "none" | "asked" | "ready" | "failed";
  // The film is the family's: one that a coach looks at is judged by what the family may see, too.
  const isOld = state === "ready" && row.filmOf !== filmOf({ ...view, clips: looker === "family" ? clips : await readClipsShown(db, { academyId, playerId }, row.clips.map(({ clipId }) => clipId), "family", today) });
  return { ...view, film: isOld ? "out-of-date" : state };
}

/** What a film was made from, as a hash: another one means that something was changed, or may no longer be shown. */
export function filmOf({ isPermitted, chapters, takes, clips }: Pick<WalkthroughView, "isPermitted" | "chapters" | "takes" | "clips">): string {
  const parts = {
    isPermitted, chapters: chapters.map(({ takeId, fromMs, toMs }) => [takeId, fromMs, toMs]), takes: takes.map(({ id, voiceMs, cues }) => [id, voiceMs, cues]),
    clips: Object.entries(clips).map(([id, { clip }]) => [id, clip !== null]).sort(),
  };
  return createHash("sha256").update(JSON.stringify(parts)).digest("hex");
}

/** What is called today of the faults that chapters are about, by swing and fault. */
async function readSights(db: Database, academyId: Id, chapters: readonly { readonly swingId: Id | null; readonly aboutKind: string | null; readonly aboutId: string | null }[]) {
  const about = chapters.flatMap(({ swingId, aboutKind, aboutId }) => (swingId && aboutId && aboutKind === "fault" ? [{ swingId, faultId: aboutId }] : []));
  const rows = about.length === 0 ? [] : await db.observation.findMany({ where: { academyId, replacedAt: null, OR: about }, select: { swingId: true, faultId: true, state: true } });
  return new Map(rows.map(({ swingId, faultId, state }) => [`${swingId} ${faultId}`, state as ChapterView["sight"]]));
}

/** What rows of a list, and a search, are made from. */
export const rowSelect = {
  id: true, title: true, side: true, summary: true, noteId: true, createdById: true, createdAt: true, sentAt: true,
  chapters: { orderBy: [{ position: "asc" }, { id: "asc" }], select: { id: true, takeId: true, fromMs: true, toMs: true, title: true, aboutId: true } },
  takes: { select: { id: true, cues: true } },
} satisfies Prisma.WalkthroughSelect;
export type WalkthroughRowForView = Prisma.WalkthroughGetPayload<{ select: typeof rowSelect }>;
