import type { z } from "zod";
import type { Actor } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { seeSwing, type SwingSubject } from "@/lib/domains/clips/policy";
import { besideForm, clipIdForm, swingIdForm, type SwingPage } from "@/lib/domains/clips/schema";
import { findSwingOfClip, findSwingSubject, readSwingPage } from "@/lib/domains/clips/scope";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import type { LibraryForMeasuring } from "@/lib/domains/library/view";
import type { Database } from "@/lib/platform/database";
import { besideCaptions, dayWords, viewWords } from "@/lib/measure/several/beside-captions";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { besideWords, FACT_NAMES, factWords, likeForLike, type SwingTaken } from "@/lib/measure/several/like-for-like";
import { comparableRule, habitRule, overSwings, readingBook, readSwing, wantedCheckpoints } from "./rules";
import { readKeptReadings, readSwingsToChoose, readSwingsUpTo } from "./scope";
import type { ComparableReadings, SwingReadings, SwingsBeside } from "./view";

async function findLibrary(actor: Actor, academyId: Id, db: Database): Promise<LibraryForMeasuring | null> {
  try {
    return await getCheckpointDefinitions.as(actor, { academyId }, db);
  } catch (error) {
    // An academy that has not taken in a library yet has clips, and no readings.
    if (error instanceof NotFoundError) return null;
    throw error;
  }
}

/** One swing with what can be read from it now, and what is still needed. */
export const getSwingReadings = defineQuery({
  name: "measurement.get-swing-readings",
  input: swingIdForm,
  policy: may<z.infer<typeof swingIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, granted, db }): Promise<SwingReadings> => {
    const swing = await readSwingPage(db, granted.id, actor.today);
    const library = await findLibrary(actor, granted.academyId, db);
    const book = readingBook(library);
    const records = library ? library.checkpoints.filter((it) => it.isMeasured).map((it) => it.record) : [];
    return {
      swing,
      book,
      sections: library?.threeQuestions ?? [],
      clips: readSwing(swing, book),
      wanted: swing.clips.map(({ clip }) => ({ clipId: clip.id, checkpoints: wantedCheckpoints(records, clip.view) })),
    };
  },
});

/** Beside a reading stand the last swings like it, at most so many. */
const MOST_COMPARED = 12;

/** How the swings of the same player and side that were taken like this one read, as kept: a fixed number of questions to the database. */
export const listComparableReadings = defineQuery({
  name: "measurement.list-comparable-readings",
  input: swingIdForm,
  policy: may<z.infer<typeof swingIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, granted, db }): Promise<ComparableReadings> => {
    const library = await findLibrary(actor, granted.academyId, db);
    const rule = comparableRule(library?.terms);
    const { swing, newestFirst } = await readSwingsUpTo(db, granted, rule.withinDays);
    const { alike, leftOut, notNoted } = comparableSwings(swing, newestFirst, rule, MOST_COMPARED);
    const kept = await readKeptReadings(db, granted.academyId, alike.map(({ id }) => id));
    return {
      swingId: granted.id,
      swings: alike.map(({ id, day }) => ({ id, filmedOn: day })),
      leftOut: leftOut.map(({ count, unlike }) => ({ count, words: `${unlike.theirs}, this one ${unlike.ours}` })),
      notNoted: notNoted.map((fact) => FACT_NAMES[fact]),
      habit: habitRule(library?.terms),
      checkpoints: overSwings(granted.id, alike, kept, readingBook(library)),
    };
  },
});

/** A clip with its swing, as it may be laid beside others. */
export const getClipBeside = defineQuery({
  name: "measurement.get-clip-beside",
  input: clipIdForm,
  policy: may<z.infer<typeof clipIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingOfClip(db, actor.academyId, input.clipId)),
  run: async ({ actor, input, granted, db }) => {
    const swing = await readSwingPage(db, granted.id, actor.today);
    const own = swing.clips.find(({ clip }) => clip.id === input.clipId);
    if (!own) throw new NotFoundError();
    return { swing, clip: own.clip };
  },
});

const takenOf = ({ playerId, facts }: Pick<SwingPage, "playerId" | "facts">, view: string): SwingTaken => ({ playerId, ...facts, view });

/** Up to four clips beside each other: one of the swing and those named with it, each of them asked for by the same policy. */
export const getSwingsBeside = defineQuery({
  name: "measurement.get-swings-beside",
  input: besideForm,
  policy: may<z.infer<typeof besideForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, input, granted, db }): Promise<SwingsBeside> => {
    const swing = await readSwingPage(db, granted.id, actor.today);
    const first = swing.clips.find(({ clip }) => clip.id === input.clipId) ?? swing.clips[0];
    if (!first) throw new NotFoundError();
    const others = [...new Set(input.withIds)].filter((id) => id !== first.clip.id);
    const opened = [{ swing, clip: first.clip }, ...(await Promise.all(others.map((clipId) => getClipBeside.as(actor, { clipId }, db))))];
    const rule = comparableRule((await findLibrary(actor, granted.academyId, db))?.terms);
    const like = (theirs: SwingTaken) => likeForLike(theirs, takenOf(swing, first.clip.view), [...rule.same, "view"]);
    const captions = besideCaptions(
      opened.map((it) => ({ swingId: it.swing.id, playerId: it.swing.playerId, playerName: it.swing.playerName.split(" ")[0] ?? "", day: it.swing.filmedOn, view: it.clip.view })),
      actor.today,
    );
    const isOpen = (clipId: Id) => opened.some(({ clip }) => clip.id === clipId);
    const choices = (await readSwingsToChoose(db, granted)).flatMap(({ clips, day, ...taken }) =>
      clips.map(({ id, view, hasContact }) => {
        const facts = [dayWords(day, actor.today), factWords("task", taken.task), viewWords(view)];
        return { clipId: id, swingId: taken.id, hasContact, words: facts.join(", "), unlike: like({ ...taken, view }).unlike.map(besideWords) };
      }),
    );
    const group = (id: string, title: string, own: typeof choices) => ({ id, title, choices: own.filter(({ clipId }) => !isOpen(clipId)).map(({ clipId, words, hasContact, unlike }) => ({ clipId, words, hasContact, unlike })) });
    return {
      swingId: swing.id, playerId: swing.playerId, playerName: swing.playerName,
      clips: opened.map(({ swing: own, clip }, i) => {
        const { unlike, notNoted } = like(takenOf(own, clip.view));
        return { clip: own.isShown ? clip : { ...clip, points: [], unseenPoints: [], marks: [] }, isShown: own.isShown, caption: captions[i] ?? "", unlike: unlike.map(besideWords), notNoted: notNoted.map((fact) => FACT_NAMES[fact]) };
      }),
      groups: [
        group("cameras", "Other cameras of this swing", choices.filter((it) => it.swingId === swing.id)),
        group("swings", `Other swings of ${swing.playerName}`, choices.filter((it) => it.swingId !== swing.id)),
      ].filter((it) => it.choices.length > 0),
    };
  },
});
