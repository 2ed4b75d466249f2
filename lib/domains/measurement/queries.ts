import type { z } from "zod";
import type { Actor } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { seeSwing, type SwingSubject } from "@/lib/domains/clips/policy";
import { swingIdForm } from "@/lib/domains/clips/schema";
import { findSwingSubject, readSwingPage } from "@/lib/domains/clips/scope";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import type { LibraryForMeasuring } from "@/lib/domains/library/view";
import type { Database } from "@/lib/platform/database";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { FACT_NAMES } from "@/lib/measure/several/like-for-like";
import { comparableRule, habitRule, overSwings, readingBook, readSwing, wantedCheckpoints } from "./rules";
import { readKeptReadings, readSwingsUpTo } from "./scope";
import type { ComparableReadings, SwingReadings } from "./view";

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
