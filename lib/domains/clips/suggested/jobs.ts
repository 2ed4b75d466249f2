import { authorize, type Granted } from "@/lib/access/ability";
import type { SystemActor } from "@/lib/access/actor";
import { defineJob, DONE, skipped, type JobOutcome } from "@/lib/access/define-job";
import { dayOf } from "@/lib/core/days";
import { NotFoundError } from "@/lib/core/errors";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import { blobs } from "@/lib/platform/blobs";
import { now } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { findBodies } from "@/lib/platform/pose/find-bodies";
import { installedModel, type ModelName } from "@/lib/platform/pose/load-model";
import { settings } from "@/lib/platform/settings";
import { giveFrames, steppingSize } from "@/lib/platform/video/make-pictures";
import { holdPoints, tellChanged } from "../commands";
import { readPictures } from "../cutting/commands";
import type { ClipSubject } from "../policy";
import type { ClipView } from "../view";
import { endLook, keepSuggestions } from "./commands";
import { suggestionsWanted } from "./events";
import { suggestPoints } from "./policy";
import { basisOf, framesOfClip, suggestedFrom, type FramesOfClip } from "./rules";
import type { NotSuggested } from "./schema";
import { findClipToSuggest, readClipToSuggest, readLastLook } from "./scope";

type Looked = Granted<ClipSubject, "clip.suggest-points">;

/**
 * Lets the pose model suggest body points on the frames that the wanted checkpoints need. Whoever is on the film is not recognised: the model tells
 * where joints lie, and nothing else is kept. Asks for the consent before it looks and again before it keeps.
 */
export const suggestPointsOfClip = defineJob(suggestionsWanted, async ({ payload, actor, isLastTry }): Promise<JobOutcome> => {
  const found = await findClipToSuggest(database(), payload.clipId, dayOf(now()));
  if (!found) return skipped("the clip is gone");
  const clip = authorize(actor, suggestPoints, found);
  if (!clip.isPermitted) return skipped(NO_CONSENT);
  const view = await readClipToSuggest(database(), clip, dayOf(now()));
  if (!view) return skipped("the clip is gone");
  const model = await installedModel();
  const chosen = await choose(actor, clip, view, model);
  if ("why" in chosen) return end(clip, view, model, chosen.why);
  if (!model) return end(clip, view, model, "no-model");
  if (payload.again !== 1 && (await isLookedAt(clip, view, model, chosen.needed))) return skipped("every frame that is needed was looked at");
  try {
    return await look(clip, view, chosen, model);
  } catch (error) {
    if (!isLastTry) throw error;
    log().error({ clipId: clip.id, err: error }, "the pose model could not look at a clip");
    return end(clip, view, model, "failed");
  }
});

const NO_CONSENT = "no consent to film for lessons is in force";

async function choose(actor: SystemActor, { academyId }: Looked, view: ClipView, model: ModelName | null): Promise<FramesOfClip | { why: NotSuggested }> {
  if (settings().SUGGEST_POINTS === "off") return { why: "off" };
  if (!model) return { why: "no-model" };
  const library = await getCheckpointDefinitions.as(actor, { academyId }).catch((error: unknown) => {
    // An academy without a library has clips all the same: then contact alone says which frames.
    if (error instanceof NotFoundError) return null;
    throw error;
  });
  return framesOfClip(view, library?.checkpoints.filter(({ isMeasured }) => isMeasured).map(({ definition }) => definition) ?? []);
}

async function end(clip: Looked, view: ClipView, model: ModelName | null, why: NotSuggested): Promise<JobOutcome> {
  await inTransaction((tx) => endLook(tx, clip, why, { basis: basisOf(view), model, msPerFrame: null }));
  return skipped(why);
}

/** Whether the same model has looked at the frames by the same view, side and mirror. */
async function isLookedAt(clip: Looked, view: ClipView, { model, version }: ModelName, needed: readonly number[]): Promise<boolean> {
  const { run, frames } = await readLastLook(database(), clip);
  if (run?.outcome !== "done" || run.basis !== basisOf(view) || run.model !== model || run.modelVersion !== version) return false;
  const looked = new Set(frames.map(({ frameIndex }) => frameIndex));
  return needed.every((frame) => looked.has(frame));
}

async function look(clip: Looked, view: ClipView, { frames, seconds }: FramesOfClip, model: ModelName): Promise<JobOutcome> {
  const { steppingKey } = await readPictures(database(), clip);
  if ((await blobs().lengthOf(steppingKey)) === null) return end(clip, view, model, "no-copy");
  const size = steppingSize(view.widthPx, view.heightPx);
  const answers = await blobs().withFile(steppingKey, (copy) => findBodies({ ...size, seconds }, (pictures) => giveFrames(copy, frames, size, pictures)));
  const seen = answers.map(({ bodies }, i) => ({ frameIndex: frames[i] ?? 0, seconds: seconds[i] ?? 0, bodies }));
  const suggested = suggestedFrom(view, size, seen);
  if (!suggested) return end(clip, view, model, "nobody-found");
  const times = answers.map(({ ms }) => ms).sort((a, b) => a - b);
  const because = await inTransaction(async (tx) => {
    const present = await findClipToSuggest(tx, clip.id, dayOf(now()));
    if (!present) return "the clip is gone";
    if (!present.isPermitted) return NO_CONSENT;
    await holdPoints(tx, clip);
    const viewNow = await readClipToSuggest(tx, clip, dayOf(now()));
    // Whoever changed it has told the worker: the next look goes by the new facts.
    if (!viewNow || basisOf(viewNow) !== basisOf(view)) return "the clip was changed meanwhile";
    await keepSuggestions(tx, clip, suggested, { basis: basisOf(view), model, msPerFrame: times[times.length >> 1] ?? null });
    await tellChanged(tx, clip);
    return null;
  });
  return because === null ? DONE : skipped(because);
}
