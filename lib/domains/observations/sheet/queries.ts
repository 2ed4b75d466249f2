import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { dayOf } from "@/lib/core/days";
import { NotFoundError } from "@/lib/core/errors";
import { medianIntervalSeconds } from "@/lib/core/frame-times";
import { listModelsFor } from "@/lib/domains/clips/models/queries";
import type { ModelOption } from "@/lib/domains/clips/models/view";
import { seeSwing, type SwingSubject } from "@/lib/domains/clips/policy";
import { contactTickOf, eventSecondsOf } from "@/lib/domains/clips/rules";
import { clipAddress, type SwingFacts } from "@/lib/domains/clips/schema";
import { findSwingSubject } from "@/lib/domains/clips/scope";
import { frameOfEvent } from "@/lib/domains/clips/stills/rules";
import { windowName } from "@/lib/domains/clips/stills/schema";
import { readKeptStills, readPicturedClips } from "@/lib/domains/clips/stills/scope";
import { sheetEvents, type PicturedClip } from "@/lib/domains/clips/stills/view";
import type { BattingSide } from "@/lib/domains/clips/view";
import { comparableRule, habitRule } from "@/lib/domains/measurement/rules";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { takenWords } from "@/lib/measure/several/like-for-like";
import { otherwiseWords } from "@/lib/measure/several/near-models";
import type { Sight } from "@/lib/reason/types";
import { readLibraryForRanking, readReadings, type RankingLibrary, type StoredReading } from "../scope";
import { calledCounts, columnOfPhase, placeInDay, readCounts, unlikeWords } from "./rules";
import { checkpointSheetForm, MOST_OTHERS } from "./schema";
import { findOwnBest, readCalls, readSheetSwings, type SheetSwing } from "./scope";
import type { RowKind, SheetCell, SheetPage, SheetRow } from "./view";

/** Whence a row comes: a swing of the player, or a model of whose swing nothing is told. */
type RowSource = { readonly clipId: string } & ({ readonly kind: Exclude<RowKind, "model">; readonly swing: SheetSwing } | { readonly kind: "model"; readonly model: ModelOption });

/** The library says how many swings are looked at together; without one, so many. */
const LAST_SWINGS = 5;

/** The same instants of several swings side by side, each with what it says: a fixed number of questions to the database. */
export const getCheckpointSheet = defineQuery({
  name: "observations.get-checkpoint-sheet",
  input: checkpointSheetForm,
  policy: may<z.infer<typeof checkpointSheetForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, input, granted, db }): Promise<SheetPage> => {
    const { academyId, playerId } = granted;
    const { swing, player, newestFirst } = await readSheetSwings(db, academyId, granted.id);
    const playerName = `${player.givenName} ${player.familyName}`;
    if (!player.permits.some((permit) => dayOf(permit.validUntil) > actor.today)) return { isShown: false, playerId, playerName };
    const clip = input.clipId ? swing.clips.find(({ id }) => id === input.clipId) : swing.clips[0];
    if (!clip) throw new NotFoundError("clip");

    const library = await readLibraryForRanking(db, academyId);
    const terms = library?.parts.terms;
    const rule = comparableRule(terms);
    const inView = newestFirst.filter(({ clips }) => clips.some(({ view }) => view === clip.view));
    const alike = comparableSwings(swing, inView, rule, Math.max(2, terms?.comparableRule.lastN ?? LAST_SWINGS)).alike;
    const ownBest = await findOwnBest(db, { academyId, playerId, side: swing.side, view: clip.view });
    const others = inView.filter(({ id }) => id !== swing.id && id !== ownBest?.swingId);
    const byItself = alike.filter(({ id }) => others.some((it) => it.id === id)).slice(0, 1).map(({ id }) => id);
    const wanted = new Set(input.withIds ?? byItself);
    const asked = others.filter(({ id }) => wanted.has(id));
    const chosen = asked.slice(0, MOST_OTHERS);

    const { swingKind, task, pitchHeight, pitchSide } = swing as SheetSwing & Pick<SwingFacts, "swingKind" | "task" | "pitchHeight" | "pitchSide">;
    const side = swing.side as BattingSide;
    const models = await listModelsFor.as(actor, { playerId, side, view: clip.view, swingKind, task, pitchHeight, pitchSide }, db);
    const model = models.options.find(({ id }) => id === input.modelId);

    const sources: RowSource[] = [{ kind: "this", swing, clipId: clip.id }];
    for (const it of chosen) sources.push({ kind: "other", swing: it, clipId: it.clips.find(({ view }) => view === clip.view)?.id ?? "" });
    if (ownBest && ownBest.swingId !== swing.id) sources.push({ kind: "own-best", swing: ownBest.swing, clipId: ownBest.clipId });
    if (model) sources.push({ kind: "model", model, clipId: model.clipId });
    const clipIds = sources.map(({ clipId }) => clipId);
    const pictured = await readPicturedClips(db, academyId, clipIds);
    const kept = await readKeptStills(db, academyId, clipIds);
    const readings = await readReadings(db, academyId, [...new Set([...pictured.map((it) => it.swingId), ...alike.map(({ id }) => id)])]);
    const calls = await readCalls(db, academyId, alike.map(({ id }) => id));
    const rows = sources.flatMap((source): SheetRow[] => {
      const { clipId } = source;
      const picture = pictured.find(({ id }) => id === clipId);
      if (!picture) return [];
      const { widthPx, heightPx, isMirrored, frameTimes, window } = picture;
      const stills = kept.get(clipId);
      const keptFrames = stills?.window === windowName(window) ? stills.frames : [];
      // Beside a player who is still growing a grown body's readings are not shown: they would be taken for a measure.
      const own = source.kind === "model" && source.model.besideChild ? [] : readings.filter(({ swingId }) => swingId === picture.swingId);
      return [{
        clipId, framesPerSecond: rateOf(picture), picture: { window, widthPx, heightPx, isMirrored, keptFrames, steppingUrl: clipAddress.stepping(clipId), frameTimes },
        cells: cellsOf(picture, own, library),
        ...(source.kind === "model"
          ? { kind: source.kind, model: source.model, swingId: source.model.id, filmedOn: null, place: { of: 1, number: 1 }, unlike: otherwiseWords(source.model) }
          : { kind: source.kind, model: null, swingId: source.swing.id, filmedOn: source.swing.day, place: placeInDay(source.swing, newestFirst), unlike: unlikeWords(source.swing, swing, rule.same) }),
      }];
    });
    const viewOf = new Map(alike.flatMap(({ clips }) => clips.map(({ id, view }) => [id, view] as const)));
    const habit = habitRule(terms);
    const faults = library?.parts.faults.faults ?? [];
    const checkpoints = library?.parts.checkpoints.checkpoints ?? [];
    const bySwing = new Set(checkpoints.filter(({ scope }) => scope === "swing").map(({ id }) => id));
    const counted = readings.filter(({ clipId, checkpointId }) => viewOf.has(clipId) && (viewOf.get(clipId) === clip.view || bySwing.has(checkpointId)));
    return {
      isShown: true, swingId: swing.id, clipId: clip.id, playerId, playerName, side, view: clip.view,
      takenWords: takenWords(swing), clips: swing.clips.map(({ id, view }) => ({ clipId: id, view })),
      ownBest: ownBest && { id: ownBest.id, isThis: ownBest.swingId === swing.id }, rows,
      choices: others.map((it) => ({
        swingId: it.id, filmedOn: it.day, place: placeInDay(it, newestFirst), unlike: unlikeWords(it, swing, rule.same), isChosen: chosen.includes(it),
      })),
      models: { ...models, chosenId: model?.id ?? null, isGone: input.modelId !== undefined && !model },
      countedSwings: alike.length,
      called: calledCounts(alike, calls.map((call) => ({ ...call, state: call.state as Sight })), faults, habit),
      read: readCounts(alike, counted, checkpoints, habit),
      strangeCount: [...wanted].filter((id) => !inView.some((it) => it.id === id)).length,
      isCutShort: asked.length > chosen.length,
    };
  },
});

function rateOf({ frameTimes, realSecondsPerFileSecond, timeBasis }: PicturedClip): number | null {
  const seconds = medianIntervalSeconds(frameTimes) * realSecondsPerFileSecond;
  return timeBasis === "unknown" || !(seconds > 0) ? null : Math.round(1 / seconds);
}

function cellsOf(clip: PicturedClip, readings: readonly StoredReading[], library: RankingLibrary | null): readonly SheetCell[] {
  const known = new Map(library?.parts.checkpoints.checkpoints.map((it) => [it.id, it]));
  const zero = clip.timeBasis === "unknown" ? null : contactTickOf(clip.events);
  return sheetEvents.map((event): SheetCell => {
    const frame = frameOfEvent(clip, event);
    const found = clip.events.find((it) => it.event === event);
    return {
      event, frame,
      seconds: zero === null || !found ? null : eventSecondsOf(clip, found, zero),
      points: "frameIndex" in frame ? clip.points.filter(({ frameIndex }) => frameIndex === frame.frameIndex) : [],
      readings: readings.flatMap(({ checkpointId, clipId, body }) => {
        const checkpoint = known.get(checkpointId);
        // A reading stands under its own clip; what is made of event times belongs to every clip of the swing.
        if (!checkpoint || columnOfPhase(checkpoint.phase) !== event || (clipId !== clip.id && checkpoint.scope === "clip")) return [];
        return [{ name: checkpoint.name, reading: { ...body, inputsUsed: { frames: [], points: [], events: [], scaleFrameIndexes: [] } } }];
      }),
    };
  });
}
