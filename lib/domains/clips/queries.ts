import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import { dayOf, daysAfter, dayValue, timeOfDay } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { seeSwing, seeSwings, type ClipOwner, type SwingSubject } from "./policy";
import { clipAddress, listSwingsForm, playerIdForm, swingIdForm, uploadFactsForm, type SwingPage, type SwingRow, type SwingToJoin, type UploadFacts, type UploadRow } from "./schema";
import { factsOf, findClipOwner, findSwingSubject, readSwingPage } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const PAGE_ROWS = 24;
const ownerOf = (input: { playerId: Id }, db: Database, actor: Person) => findClipOwner(db, actor.academyId, input.playerId);

/** One swing with its clips and all that is recorded of them. */
export const getSwing = defineQuery({
  name: "clips.get-swing",
  input: swingIdForm,
  policy: may<In<typeof swingIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, granted, db }): Promise<SwingPage> => readSwingPage(db, granted.id, actor.today),
});

/** A player's swings, newest first. */
export const listSwings = defineQuery({
  name: "clips.list-swings",
  input: listSwingsForm,
  policy: may<In<typeof listSwingsForm>, ClipOwner, "swings.see">(seeSwings, ownerOf),
  run: async ({ actor, input, granted, db }): Promise<{ rows: SwingRow[]; next: Id | null }> => {
    const found = await db.swing.findMany({
      where: { academyId: granted.academyId, playerId: granted.playerId, ...(input.side ? { side: input.side } : {}) },
      orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: {
        id: true, side: true, task: true, filmedOn: true,
        player: { select: { permits: { where: { use: "lesson" }, select: { validUntil: true } } } },
        events: { where: { event: "contact", source: "placed" }, select: { event: true } },
        clips: {
          orderBy: [{ createdAt: "asc" }, { id: "asc" }],
          take: 1,
          select: { id: true, view: true, _count: { select: { points: { where: { source: "placed" } } } } },
        },
      },
    });
    const rows = found.slice(0, PAGE_ROWS).flatMap(({ clips: [clip], player, ...swing }): SwingRow[] => {
      if (!clip) return [];
      const isShown = player.permits.some((permit) => dayOf(permit.validUntil) > actor.today);
      return [
        {
          id: swing.id,
          clipId: clip.id,
          side: swing.side as SwingRow["side"],
          view: clip.view as SwingRow["view"],
          task: swing.task as SwingRow["task"],
          filmedOn: dayOf(swing.filmedOn),
          hasContact: swing.events.length > 0,
          placedPointCount: clip._count.points,
          posterUrl: isShown ? clipAddress.poster(clip.id) : null,
        },
      ];
    });
    return { rows, next: found.length > PAGE_ROWS ? (found[PAGE_ROWS - 1]?.id ?? null) : null };
  },
});

const READY_SHOWN_MS = 60 * 60_000;
const MOST_UPLOADS = 60;

/** What is being sent for a player, what was refused and not put away, and what became a clip within the hour. */
export const listUploads = defineQuery({
  name: "clips.list-uploads",
  input: playerIdForm,
  policy: may(seeSwings, ownerOf),
  run: async ({ granted, db }): Promise<UploadRow[]> => {
    const rows = await db.upload.findMany({
      where: {
        academyId: granted.academyId,
        playerId: granted.playerId,
        dismissedAt: null,
        OR: [{ state: { in: ["receiving", "checking", "refused"] } }, { state: "ready", finishedAt: { gt: new Date(now().getTime() - READY_SHOWN_MS) } }],
      },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      take: MOST_UPLOADS,
      select: { id: true, state: true, createdAt: true, byteLength: true, refusal: true, wasKnown: true, canRetry: true, hasPoster: true, clip: { select: { swingId: true } } },
    });
    return rows.map((row) => ({
      id: row.id,
      state: row.state as UploadRow["state"],
      sentAt: row.createdAt.toISOString(),
      byteLength: Number(row.byteLength),
      refusal: row.refusal,
      wasKnown: row.wasKnown,
      canRetry: row.canRetry,
      posterUrl: row.hasPoster && row.state === "checking" ? clipAddress.arrivingPoster(row.id) : null,
      swingId: row.clip?.swingId ?? null,
    }));
  },
});

const JOINED_WITHIN_DAYS = 30;
const MOST_TO_JOIN = 40;

/** The player's swings of the last days, newest first: those of which a film may be another camera. */
export const listSwingsToJoin = defineQuery({
  name: "clips.list-swings-to-join",
  input: playerIdForm,
  policy: may(seeSwings, ownerOf),
  run: async ({ actor, granted, db }): Promise<SwingToJoin[]> => {
    const rows = await db.swing.findMany({
      where: { academyId: granted.academyId, playerId: granted.playerId, filmedOn: { gte: dayValue(daysAfter(actor.today, -JOINED_WITHIN_DAYS)) } },
      orderBy: [{ filmedOn: "desc" }, { createdAt: "desc" }, { id: "asc" }],
      take: MOST_TO_JOIN,
      include: { clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { view: true } } },
    });
    return rows.map((row) => ({
      id: row.id, filmedOn: dayOf(row.filmedOn), facts: factsOf(row), views: row.clips.map(({ view }) => view as SwingRow["view"]), addedAt: timeOfDay(row.createdAt, actor.timeZone),
    }));
  },
});

/** The answers given for this player's last clip, as the next form's beginning; null before the first. */
export const findLastFacts = defineQuery({
  name: "clips.find-last-facts",
  input: playerIdForm,
  policy: may(seeSwings, ownerOf),
  run: async ({ granted, db }): Promise<UploadFacts | null> => {
    const last = await db.upload.findFirst({
      where: { academyId: granted.academyId, playerId: granted.playerId, state: { not: "cancelled" } },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      select: { facts: true },
    });
    return last ? (uploadFactsForm.safeParse(last.facts).data ?? null) : null;
  },
});
