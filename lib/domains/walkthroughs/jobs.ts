import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { clipErased } from "@/lib/domains/clips/erasing/events";
import { blobs } from "@/lib/platform/blobs";
import { todayIn } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { forgetFilmsOf, keepFilm } from "./commands";
import { bytesDropped, filmAsked, openingWanted } from "./events";
import { renderFilm } from "./film/commands";
import { keepOpening } from "./opening/commands";
import { dropBytes, makeFilm, makeOpening } from "./policy";
import { filmOf, findWalkthroughSubject, readWalkthrough } from "./scope";

/** Renders the film as the family may see it today. What changes while it is rendered makes it out of date, and the page says so. */
export const makeAskedFilm = defineJob(filmAsked, async ({ payload, actor, isLastTry }) => {
  const db = database();
  const row = await db.walkthrough.findUnique({ where: { id: payload.walkthroughId }, select: { academyId: true, filmState: true } });
  if (!row) return skipped("the walkthrough is gone");
  if (row.filmState !== "asked") return skipped("the film was made already");
  const { timeZone } = await db.academy.findUniqueOrThrow({ where: { id: row.academyId }, select: { timeZone: true } });
  const today = todayIn(timeZone);
  const walkthrough = authorize(actor, makeFilm, await findWalkthroughSubject(db, { id: payload.walkthroughId }, today));
  try {
    await inWorkFolder(async (folder) => {
      const view = await readWalkthrough(db, walkthrough.id, "family", { today, timeZone });
      const film = await renderFilm(db, view, folder);
      const of = filmOf(view);
      const key = `${walkthrough.academyId}/walkthroughs/${walkthrough.id}/film-${of.slice(0, 16)}.mp4`;
      await blobs().keepFile(key, film);
      await inTransaction((tx) => keepFilm(tx, walkthrough, { key, of }));
    });
    return DONE;
  } catch (error) {
    if (isLastTry) await inTransaction((tx) => keepFilm(tx, walkthrough, null));
    throw error;
  }
});

/** Makes the small stills with which a walkthrough begins, of all that a coach may be shown; who sees which of them is decided at each view. */
export const makeWantedOpening = defineJob(openingWanted, async ({ payload, actor }) => {
  const db = database();
  const row = await db.walkthrough.findUnique({ where: { id: payload.walkthroughId }, select: { academyId: true } });
  if (!row) return skipped("the walkthrough is gone");
  const { timeZone } = await db.academy.findUniqueOrThrow({ where: { id: row.academyId }, select: { timeZone: true } });
  const today = todayIn(timeZone);
  const walkthrough = authorize(actor, makeOpening, await findWalkthroughSubject(db, { id: payload.walkthroughId }, today));
  await keepOpening(db, walkthrough, await readWalkthrough(db, walkthrough.id, "coach", { today, timeZone }));
  return DONE;
});

/** A film that shows a clip which was erased goes with it. The talk itself stays, and the clip's place says that it was removed. */
export const dropFilmsOfErasedClip = defineJob(clipErased, async ({ payload: { academyId, clipId }, actor }) => {
  authorize(actor, dropBytes, { academyId });
  const films = await inTransaction((tx) => forgetFilmsOf(tx, academyId, clipId));
  for (const key of films) await blobs().remove(key);
  return films.length > 0 ? DONE : skipped("no film shows it");
});

/** Removes bytes, unless something has come to name them again. */
export const dropUnnamedBytes = defineJob(bytesDropped, async ({ payload: { key }, actor }) => {
  const [academyId = ""] = key.split("/");
  authorize(actor, dropBytes, { academyId });
  const isNamed = (await database().walkthroughTake.count({ where: { voiceKey: key } })) + (await database().walkthrough.count({ where: { filmKey: key } }));
  if (isNamed > 0) return skipped("they are named again");
  await blobs().remove(key);
  return DONE;
});
