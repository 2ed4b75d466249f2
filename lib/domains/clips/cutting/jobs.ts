import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { fileSecondsOf } from "@/lib/core/frame-times";
import { findSwings } from "@/lib/measure/find-swings/find-swings";
import { blobs } from "@/lib/platform/blobs";
import { now } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { watchFilm } from "@/lib/platform/video/watch-film";
import { timesOf } from "../scope";
import { filmKept } from "./events";
import { findSwingsOf } from "./policy";
import type { FoundInFilm } from "./schema";

/** So many steps of motion are kept for the eye: a screen has no more. */
const STEPS = 600;

/** Looks for the swings of a film by what is heard and seen, and keeps what was found. Looking again gives the same. */
export const findSwingsOfFilm = defineJob(filmKept, async ({ payload, actor }) => {
  const { academyId, fileId } = payload;
  authorize(actor, findSwingsOf, { academyId });
  const file = await database().mediaFile.findFirst({ where: { id: fileId, academyId }, include: { frameTimes: true, clips: { take: 1, orderBy: { createdAt: "asc" }, select: { realSecondsPerFileSecond: true } } } });
  if (!file?.frameTimes) return skipped("the film is gone");
  if ((await blobs().lengthOf(file.steppingKey)) === null) return skipped("the film has no stepping copy");
  const times = timesOf(file.frameTimes);
  const real = file.clips[0]?.realSecondsPerFileSecond ?? 1;
  const watched = await blobs().withFile(file.steppingKey, (copy) => watchFilm(copy, real));
  const seconds = fileSecondsOf(times, times.ticks.length - 1) - fileSecondsOf(times, 0);
  const swings = findSwings({ seconds, realSecondsPerFilmSecond: real, ...watched });
  const found: FoundInFilm = { v: 1, swings: [...swings], motion: forTheEye(watched.motion.amounts), sounds: watched.onsets.map((it) => it.seconds) };
  const said = { found, foundAt: now() };
  await database().fileSwings.upsert({ where: { academyId_fileId: { academyId, fileId } }, create: { academyId, fileId, ...said }, update: said });
  return DONE;
});

/** The largest of each step, as a part of the largest of all. */
function forTheEye(amounts: readonly number[]): number[] {
  const steps = Math.min(STEPS, amounts.length);
  const most = Math.max(1e-9, ...amounts);
  return Array.from({ length: steps }, (_, i) => {
    const own = amounts.slice(Math.floor((i * amounts.length) / steps), Math.max(Math.floor((i * amounts.length) / steps) + 1, Math.floor(((i + 1) * amounts.length) / steps)));
    return Math.round((Math.max(...own) / most) * 1000) / 1000;
  });
}
