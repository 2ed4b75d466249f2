import { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import { dayOf } from "@/lib/core/days";
import { playersScope } from "@/lib/domains/roster/scope";
import { now } from "@/lib/platform/clock";
import { uploadFactsForm, type UploadFacts } from "../schema";
import { filmGroup } from "./policy";
import type { LessonPlayer, OwnUpload } from "./schema";

const nothing = z.object({});
const MOST_PLAYERS = 120;
const MOST_UPLOADS = 120;
const READY_SHOWN_MS = 3 * 60 * 60_000;

/** The players whom the person teaches, by name: the tiles of a group lesson. */
export const listLessonPlayers = defineQuery({
  name: "clips.list-lesson-players",
  input: nothing,
  policy: mayInAcademy(filmGroup),
  run: async ({ actor, db }): Promise<LessonPlayer[]> => {
    const rows = await db.player.findMany({
      where: { AND: [playersScope(actor), { leftAt: null }] },
      orderBy: [{ givenName: "asc" }, { familyName: "asc" }, { id: "asc" }],
      take: MOST_PLAYERS,
      select: {
        id: true, givenName: true, familyName: true, sides: { select: { side: true }, orderBy: { side: "desc" } }, permits: { where: { use: "lesson" }, select: { validUntil: true } },
      },
    });
    return rows.map((row) => ({
      id: row.id,
      name: `${row.givenName} ${row.familyName}`,
      sides: row.sides.map((it) => it.side as LessonPlayer["sides"][number]),
      mayBeFilmed: row.permits.some((permit) => dayOf(permit.validUntil) > actor.today),
    }));
  },
});

/** Without pictures: a lesson has forty, and each player's page shows them. What the person has on the way, and what of it became a clip within some hours or was refused: the newest first. */
export const listOwnUploads = defineQuery({
  name: "clips.list-own-uploads",
  input: nothing,
  policy: mayInAcademy(filmGroup),
  run: async ({ actor, db }): Promise<OwnUpload[]> => {
    const rows = await db.upload.findMany({
      where: {
        academyId: actor.academyId,
        userId: actor.userId,
        player: playersScope(actor),
        dismissedAt: null,
        OR: [{ state: { in: ["receiving", "checking", "refused"] } }, { state: "ready", finishedAt: { gt: new Date(now().getTime() - READY_SHOWN_MS) } }],
      },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      take: MOST_UPLOADS,
      select: {
        id: true, playerId: true, state: true, createdAt: true, byteLength: true, refusal: true, wasKnown: true, canRetry: true, clip: { select: { swingId: true } }, player: { select: { givenName: true, familyName: true } },
      },
    });
    return rows.map(({ clip, player, byteLength, createdAt, ...row }) => ({
      ...row, sentAt: createdAt.toISOString(), state: row.state as OwnUpload["state"], byteLength: Number(byteLength), swingId: clip?.swingId ?? null, posterUrl: null, playerName: `${player.givenName} ${player.familyName}`,
    }));
  },
});

/** The answers of the person's last clip of anybody: where the board begins. */
export const findOwnLastFacts = defineQuery({
  name: "clips.find-own-last-facts",
  input: nothing,
  policy: mayInAcademy(filmGroup),
  run: async ({ actor, db }): Promise<UploadFacts | null> => {
    const last = await db.upload.findFirst({
      where: { academyId: actor.academyId, userId: actor.userId, state: { not: "cancelled" } },
      orderBy: [{ createdAt: "desc" }, { id: "asc" }],
      select: { facts: true },
    });
    return last ? (uploadFactsForm.safeParse(last.facts).data ?? null) : null;
  },
});
