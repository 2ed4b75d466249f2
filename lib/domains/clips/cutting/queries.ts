import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { ClipSubject } from "../policy";
import { clipAddress } from "../schema";
import { factsOf, findClipSubject, timesOfClip } from "../scope";
import { cutClip } from "./policy";
import { cutsOf } from "./rules";
import { filmToCutForm, foundForm, type FilmToCut, type FoundInFilm } from "./schema";
import { isWorkedOn } from "./scope";

const NOTHING_FOUND: FoundInFilm = { v: 1, swings: [], motion: [], sounds: [] };

/** A film with the swings that were found in it. What was found counts from the film's first frame, so a stretch is not cut again. */
export const getFilmToCut = defineQuery({
  name: "clips.get-film-to-cut",
  input: filmToCutForm,
  policy: may<z.infer<typeof filmToCutForm>, ClipSubject, "clip.cut">(cutClip, (input: { clipId: Id }, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today)),
  run: async ({ granted, db }): Promise<FilmToCut> => {
    const row = await db.clip.findUniqueOrThrow({
      where: { id: granted.id },
      include: { swing: true, player: { select: { givenName: true, familyName: true } }, file: { include: { frameTimes: true, swings: true } } },
    });
    const frameTimes = timesOfClip(row);
    const isWhole = frameTimes.ticks.length === row.file.frameTimes?.frameCount;
    const found = isWhole ? (foundForm.safeParse(row.file.swings?.found).data ?? null) : NOTHING_FOUND;
    return {
      clipId: row.id,
      swingId: row.swingId,
      playerId: row.playerId,
      playerName: `${row.player.givenName} ${row.player.familyName}`,
      facts: factsOf(row.swing),
      frameTimes,
      realSecondsPerFileSecond: row.realSecondsPerFileSecond,
      widthPx: row.file.widthPx,
      heightPx: row.file.heightPx,
      steppingUrl: clipAddress.stepping(row.id),
      found,
      offered: found ? cutsOf(found.swings, frameTimes) : [],
      isWorkedOn: await isWorkedOn(db, row),
    };
  },
});
