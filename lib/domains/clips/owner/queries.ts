import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { dayOf, timeOfDay } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { SwingSubject } from "../policy";
import { clipAddress } from "../schema";
import { findSwingSubject } from "../scope";
import { sortClips } from "./policy";
import { swingClipsForm, type SortedClip, type SwingToSort } from "./schema";

const MOST_OTHERS = 40;

/** A swing with its clips and the swings of the same day that it may be one with. */
export const getSwingToSort = defineQuery({
  name: "clips.get-swing-to-sort",
  input: swingClipsForm,
  policy: may<z.infer<typeof swingClipsForm>, SwingSubject, "swing.sort-clips">(sortClips, (input: { swingId: Id }, db: Database, actor: Person) =>
    findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, granted, db }): Promise<SwingToSort> => {
    const row = await db.swing.findUniqueOrThrow({
      where: { id: granted.id },
      select: {
        side: true, filmedOn: true,
        player: { select: { givenName: true, familyName: true, permits: { where: { use: "lesson" }, select: { validUntil: true } } } },
        models: { where: { withdrawnAt: null }, select: { id: true } },
        clips: {
          orderBy: [{ createdAt: "asc" }, { id: "asc" }],
          select: { id: true, view: true, firstFrame: true, lastFrame: true, file: { select: { frameTimes: { select: { frameCount: true } } } }, _count: { select: { points: { where: { source: "placed" } } } } },
        },
      },
    });
    const others = await db.swing.findMany({
      where: { academyId: granted.academyId, playerId: granted.playerId, side: row.side, filmedOn: row.filmedOn, id: { not: granted.id } },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      take: MOST_OTHERS,
      select: { id: true, createdAt: true, task: true, clips: { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, view: true } } },
    });
    const isShown = row.player.permits.some((permit) => dayOf(permit.validUntil) > actor.today);
    const poster = (clipId: Id | undefined) => (isShown && clipId ? clipAddress.poster(clipId) : null);
    return {
      swingId: granted.id,
      playerId: granted.playerId,
      playerName: `${row.player.givenName} ${row.player.familyName}`,
      side: row.side as SwingToSort["side"],
      filmedOn: dayOf(row.filmedOn),
      isShown,
      isModel: row.models.length > 0,
      clips: row.clips.map((clip) => {
        const frameCount = clip.lastFrame - clip.firstFrame + 1;
        return { id: clip.id, view: clip.view as SortedClip["view"], posterUrl: poster(clip.id), frameCount, isStretch: frameCount < (clip.file.frameTimes?.frameCount ?? 0), placedPointCount: clip._count.points };
      }),
      others: others.map((it) => ({ id: it.id, addedAt: timeOfDay(it.createdAt, actor.timeZone), task: it.task, views: it.clips.map(({ view }) => view), posterUrl: poster(it.clips[0]?.id) })),
    };
  },
});
