import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { ADULT_FROM_YEARS, ageYears, levelOf, type Level } from "@/lib/core/age";
import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { daysBetween, isAdultOn, type Sport } from "@/lib/domains/roster/rules";
import { besideChildWords, nearModels, noneMatchWords, type ModelTagged, type ModelWanted } from "@/lib/measure/several/near-models";
import { now } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { seeSwings, type ClipOwner, type SwingSubject } from "../policy";
import { clipAddress, swingIdForm, type SwingFacts } from "../schema";
import { findSwingSubject, readSwingPage } from "../scope";
import type { BattingSide, CameraView } from "../view";
import { changeModel, keepAsModel, lookAtModels, manageModels, type ModelSubject } from "./policy";
import { mayUndo, modelState, NEEDED_USES, type RightBasis } from "./rules";
import { modelIdForm, modelsForForm, nothingForm } from "./schema";
import { draftSelect, findModelSubject, hindranceOn, modelOptionSelect, modelRowSelect, shownOn, usesOn, type ModelRowForView } from "./scope";
import type { ModelDraft, ModelFilm, ModelOption, ModelRow, ModelsFor, ModelTags } from "./view";

type In<Form extends z.ZodType> = z.infer<Form>;
const MOST_MODELS = 200;
const MOST_WITHDRAWN = 10;

interface TaggedRow {
  readonly label: string;
  readonly sport: string;
  readonly level: string;
  readonly isAdult: boolean;
  readonly heightM: number | null;
  readonly task: string;
  readonly pitchHeight: string;
  readonly pitchSide: string;
  readonly swing: { readonly side: string };
}

/** The closed lists are kept by the form through which every row came. */
function tagsOf({ label, sport, level, isAdult, heightM, task, pitchHeight, pitchSide, swing }: TaggedRow): ModelTags {
  return {
    label, isAdult, heightM, side: swing.side as BattingSide, sport: sport as Sport, level: level as Level, task: task as SwingFacts["task"],
    pitchHeight: pitchHeight as SwingFacts["pitchHeight"], pitchSide: pitchSide as SwingFacts["pitchSide"],
  };
}

function rowView(row: ModelRowForView, names: ReadonlyMap<Id, string>, today: string): ModelRow {
  const { id, swingId, rightHolder, rightBasis, rightNote, recordedById, recordedAt, withdrawnAt } = row;
  const rightUntil = dayOf(row.rightUntil);
  const state = modelState({ rightUntil, isWithdrawn: withdrawnAt !== null, permittedUses: usesOn(row.player.permits, today) }, today);
  const [clip] = row.swing.clips;
  return {
    ...tagsOf(row), id, swingId, state, rightHolder, rightBasis: rightBasis as RightBasis, rightUntil, rightNote,
    views: row.swing.clips.map(({ view }) => view as CameraView),
    posterUrl: clip && usesOn(row.player.permits, today).includes("lesson") ? clipAddress.poster(clip.id) : null,
    daysLeft: Math.max(0, daysBetween(today, rightUntil)),
    recordedBy: names.get(recordedById) ?? "somebody", recordedOn: dayOf(recordedAt),
    canUndo: withdrawnAt !== null && mayUndo(withdrawnAt, now()),
  };
}

async function rowViews(db: Database, actor: Person, rows: readonly ModelRowForView[]): Promise<readonly ModelRow[]> {
  const ids = [...new Set(rows.map(({ recordedById }) => recordedById))];
  const users = await db.user.findMany({ where: { academyId: actor.academyId, id: { in: ids } }, select: { id: true, displayName: true } });
  const names = new Map(users.map((user) => [user.id, user.displayName]));
  return rows.map((row) => rowView(row, names, actor.today));
}

/** Every model that is kept, the right that ends first on top, and what was withdrawn last. */
export const listModels = defineQuery({
  name: "clips.list-models",
  input: nothingForm,
  policy: mayInAcademy(manageModels),
  run: async ({ actor, granted, db }): Promise<{ kept: readonly ModelRow[]; withdrawn: readonly ModelRow[] }> => {
    const { academyId } = granted;
    const kept = await db.modelSwing.findMany({
      where: { academyId, withdrawnAt: null }, orderBy: [{ rightUntil: "asc" }, { label: "asc" }, { id: "asc" }], take: MOST_MODELS, select: modelRowSelect,
    });
    const withdrawn = await db.modelSwing.findMany({
      where: { academyId, withdrawnAt: { not: null } }, orderBy: [{ withdrawnAt: "desc" }, { id: "asc" }], take: MOST_WITHDRAWN, select: modelRowSelect,
    });
    const rows = await rowViews(db, actor, [...kept, ...withdrawn]);
    return { kept: rows.slice(0, kept.length), withdrawn: rows.slice(kept.length) };
  },
});

/** One model with its right, to be changed. */
export const getModel = defineQuery({
  name: "clips.get-model",
  input: modelIdForm,
  policy: may<In<typeof modelIdForm>, ModelSubject, "model.change">(changeModel, (input, db, actor) => findModelSubject(db, actor.academyId, input.modelId)),
  run: async ({ actor, granted, db }): Promise<ModelRow> => {
    const row = await db.modelSwing.findUniqueOrThrow({ where: { id: granted.id }, select: modelRowSelect });
    const [view] = await rowViews(db, actor, [row]);
    if (!view) throw new Error("a model without a view");
    return view;
  },
});

/** What is known of a swing that shall be kept as a model: its tags so far, and what hinders it. */
export const getModelDraft = defineQuery({
  name: "clips.get-model-draft",
  input: swingIdForm,
  policy: may<In<typeof swingIdForm>, SwingSubject, "swing.keep-as-model">(keepAsModel, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, granted, db }): Promise<ModelDraft> => {
    const row = await db.swing.findUniqueOrThrow({ where: { id: granted.id }, select: draftSelect });
    const { player, models, clips } = row;
    const [birthDate, filmedOn, playerName] = [dayOf(player.birthDate), dayOf(row.filmedOn), `${player.givenName} ${player.familyName}`];
    const level = levelOf(birthDate, filmedOn, player.hasLeftSchool);
    const { label: _, ...tags } = tagsOf({ ...row, ...player, label: "", level, isAdult: ageYears(birthDate, filmedOn) >= ADULT_FROM_YEARS, swing: row });
    return {
      swingId: row.id, playerName, filmedOn, views: clips.map(({ view }) => view as CameraView), tags, modelId: models[0]?.id ?? null,
      posterUrl: clips[0] && usesOn(player.permits, actor.today).includes(NEEDED_USES[0]) ? clipAddress.poster(clips[0].id) : null,
      hindrance: hindranceOn(row, actor.today),
    };
  },
});

const ownerOf = async (input: { playerId: Id }, db: Database, actor: Person): Promise<ClipOwner | null> => {
  const found = await db.player.findFirst({ where: { id: input.playerId, academyId: actor.academyId }, select: { academyId: true } });
  return found && { academyId: found.academyId, playerId: input.playerId };
};

/** The models that can stand beside a player's swing, nearest first, each with why; the player's own swings are not among them. */
export const listModelsFor = defineQuery({
  name: "clips.list-models-for",
  input: modelsForForm,
  policy: may<In<typeof modelsForForm>, ClipOwner, "swings.see">(seeSwings, ownerOf),
  run: async ({ actor, input, granted, db }): Promise<ModelsFor> => {
    const { academyId, playerId } = granted;
    const player = await db.player.findUniqueOrThrow({ where: { id: playerId }, select: { birthDate: true, sport: true, heightM: true, hasLeftSchool: true } });
    const birthDate = dayOf(player.birthDate);
    const { playerId: _, ...taken } = input;
    const wanted: ModelWanted = {
      ...taken, sport: player.sport, heightM: player.heightM, level: levelOf(birthDate, actor.today, player.hasLeftSchool), isAdult: isAdultOn(birthDate, actor.today),
    };
    const rows = await db.modelSwing.findMany({
      where: { academyId, playerId: { not: playerId }, ...shownOn(actor.today) }, orderBy: [{ label: "asc" }, { id: "asc" }], take: MOST_MODELS, select: modelOptionSelect,
    });
    const models = rows.flatMap((row) => {
      const clip = row.swing.clips.find(({ view }) => view === input.view);
      return clip ? [{ ...tagsOf(row), id: row.id, clipId: clip.id, view: input.view, swingKind: row.swing.swingKind, isMirrored: clip.isMirrored } satisfies ModelTagged & ModelTags & { clipId: Id; isMirrored: boolean }] : [];
    });
    const found = nearModels(wanted, models);
    return {
      noneMatch: noneMatchWords(wanted, found),
      options: found.map(({ model: { swingKind: __, isMirrored, ...model }, ...how }): ModelOption => ({
        ...model, ...how, isTurned: isMirrored !== how.isShownMirrored, besideChild: besideChildWords(wanted, model), posterUrl: clipAddress.poster(model.clipId),
      })),
    };
  },
});

/** A model's film with its events and points, to be laid beside a swing; null when there is none, or none that may still be shown. */
export const findModelFilm = defineQuery({
  name: "clips.find-model-film",
  input: modelIdForm,
  policy: mayInAcademy<In<typeof modelIdForm>, "models.look-at">(lookAtModels),
  run: async ({ actor, input, granted, db }): Promise<ModelFilm | null> => {
    const row = await db.modelSwing.findFirst({ where: { id: input.modelId, academyId: granted.academyId, ...shownOn(actor.today) }, select: { ...modelOptionSelect, swingId: true } });
    if (!row) return null;
    const { clips, facts } = await readSwingPage(db, row.swingId, actor.today);
    const tags = tagsOf(row);
    return {
      ...tags, id: row.id, swingKind: facts.swingKind,
      clips: clips.map(({ clip, camera }) => ({
        // What was drawn or written on it was meant for the hitter.
        clip: { ...clip, playerId: row.id, playerName: tags.label, marks: [], abilities: { canMeasure: false, canMark: false } },
        camera,
      })),
    };
  },
});
