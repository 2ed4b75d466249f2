import type { z } from "zod";
import { isPerson, type Actor } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { seeSwing, type SwingSubject } from "@/lib/domains/clips/policy";
import { besideForm, clipIdForm, swingIdForm, type SwingPage } from "@/lib/domains/clips/schema";
import { findSwingOfClip, findSwingSubject, readSwingPage } from "@/lib/domains/clips/scope";
import { lookAtModels } from "@/lib/domains/clips/models/policy";
import { findModelFilm, listModelsFor } from "@/lib/domains/clips/models/queries";
import { wasModelClip } from "@/lib/domains/clips/models/scope";
import type { ModelOption } from "@/lib/domains/clips/models/view";
import type { ClipView } from "@/lib/domains/clips/view";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import type { LibraryForMeasuring } from "@/lib/domains/library/view";
import type { Database } from "@/lib/platform/database";
import { besideCaptions, dayWords, viewWords } from "@/lib/measure/several/beside-captions";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { besideWords, FACT_NAMES, factWords, likeForLike, type SwingTaken } from "@/lib/measure/several/like-for-like";
import { NOT_A_MARK, otherwiseWords } from "@/lib/measure/several/near-models";
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

/** A clip laid beside: of a swing that one may see, or a model's, of whose swing nothing is told. */
type OpenedBeside = { readonly clip: ClipView } & ({ readonly swing: SwingPage; readonly model: null } | { readonly swing: null; readonly model: ModelOption });

/** A model that is offered here, else a clip of a swing that the actor may see. @throws NotFoundError for any other */
async function openBeside(actor: Actor, clipId: Id, options: readonly ModelOption[], db: Database): Promise<OpenedBeside> {
  const model = options.find((it) => it.clipId === clipId);
  const film = model && (await findModelFilm.as(actor, { modelId: model.id }, db));
  const clip = film?.clips.find((it) => it.clip.id === clipId)?.clip;
  return model && clip ? { clip, model, swing: null } : { ...(await getClipBeside.as(actor, { clipId }, db)), model: null };
}

/** The same, and null for a model that may no longer be shown: whoever looks at models may know that much of a clip, and nobody else. */
async function openUnlessGone(actor: Actor, clipId: Id, options: readonly ModelOption[], subject: SwingSubject, db: Database): Promise<OpenedBeside | null> {
  try {
    return await openBeside(actor, clipId, options, db);
  } catch (error) {
    const { academyId } = subject;
    if (error instanceof NotFoundError && isPerson(actor) && lookAtModels.allows(actor, { academyId }) && (await wasModelClip(db, academyId, clipId, actor.today))) return null;
    throw error;
  }
}

/** Whose it is and of which day, as captions tell clips apart. */
function captionOf({ clip, swing, model }: OpenedBeside, today: string) {
  const { playerId, playerName, filmedOn: day } = swing ?? { playerId: model.id, playerName: model.label, filmedOn: today };
  return { swingId: clip.swingId, playerId, playerName: playerName.split(" ")[0] ?? "", day, view: clip.view };
}

/** In what a model is otherwise than this swing, and what it is not. */
function modelUnlike(model: ModelOption): readonly string[] {
  return [...otherwiseWords(model), (model.besideChild ?? NOT_A_MARK).replace(/\.$/, "")];
}

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
    const { side, swingKind, task, pitchHeight, pitchSide } = swing.facts;
    const { options } = await listModelsFor.as(actor, { playerId: swing.playerId, side, view: first.clip.view, swingKind, task, pitchHeight, pitchSide }, db);
    const found = await Promise.all(others.map((clipId) => openUnlessGone(actor, clipId, options, granted, db)));
    const opened: readonly OpenedBeside[] = [{ swing, clip: first.clip, model: null }, ...found.filter((it) => it !== null)];
    const rule = comparableRule((await findLibrary(actor, granted.academyId, db))?.terms);
    const like = (theirs: SwingTaken) => likeForLike(theirs, takenOf(swing, first.clip.view), [...rule.same, "view"]);
    const captions = besideCaptions(opened.map((it) => captionOf(it, actor.today)), actor.today);
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
      goneModels: found.filter((it) => it === null).length,
      clips: opened.map(({ swing: own, clip, model }, i) => {
        if (model) return { clip, isShown: true, isModel: true, startsFlipped: model.isTurned !== first.clip.isMirrored, caption: `Model: ${model.label}`, unlike: modelUnlike(model), notNoted: [] };
        const { unlike, notNoted } = like(takenOf(own, clip.view));
        return { clip: own.isShown ? clip : { ...clip, points: [], unseenPoints: [], marks: [] }, isShown: own.isShown, startsFlipped: false, caption: captions[i] ?? "", unlike: unlike.map(besideWords), notNoted: notNoted.map((fact) => FACT_NAMES[fact]) };
      }),
      groups: [
        group("cameras", "Other cameras of this swing", choices.filter((it) => it.swingId === swing.id)),
        group("swings", `Other swings of ${swing.playerName}`, choices.filter((it) => it.swingId !== swing.id)),
        {
          id: "models", title: "Models, the nearest first",
          choices: options.filter(({ clipId }) => !isOpen(clipId)).map((model) => ({ clipId: model.clipId, words: `${model.label}, bats ${model.side}, ${model.isAdult ? "grown" : "still growing"}`, hasContact: true, unlike: modelUnlike(model) })),
        },
      ].filter((it) => it.choices.length > 0),
    };
  },
});
