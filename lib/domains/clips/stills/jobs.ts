import { authorize, type Granted } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { blobs } from "@/lib/platform/blobs";
import { database, inTransaction } from "@/lib/platform/database";
import { makeCuts } from "@/lib/platform/video/make-pictures";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { readPictures, type ClipPictures } from "../cutting/commands";
import type { SwingSubject } from "../policy";
import { findSwingSubject } from "../scope";
import { keepStills } from "./commands";
import { stillsChanged } from "./events";
import { cutStills } from "./policy";
import { sheetFrames } from "./rules";
import { windowName } from "./schema";
import { readPicturedClips, readStillFiles } from "./scope";
import type { PicturedClip } from "./view";

type Cut = Granted<SwingSubject, "swing.cut-stills">;

/** While somebody marks quickly, what was cut is out of date at once: then it is looked at again, so many times. */
const ATTEMPTS = 3;

/** Cuts the stills of a swing's clips at the frames of its events. What lies there already is left alone, so that running again costs nothing. */
export const cutStillsOfSwing = defineJob(stillsChanged, async ({ payload, actor }) => {
  const found = await findSwingSubject(database(), { id: payload.swingId });
  if (!found) return skipped("the swing is gone");
  const swing = authorize(actor, cutStills, found);
  const files = await readStillFiles(database(), swing.academyId, swing.id);
  const missing: string[] = [];
  for (const file of files) {
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const [clip] = await readPicturedClips(database(), swing.academyId, [file.id]);
      if (!clip) break;
      const pictures = await readPictures(database(), file);
      if (!(await cut(clip, pictures))) missing.push(file.id);
      else if (!(await keepIfCurrent(swing, clip, pictures))) continue;
      break;
    }
  }
  return missing.length > 0 ? skipped(`no stepping copy of ${missing.length} clips`) : DONE;
});

/** Makes the stills that are not there yet; false when there is no copy to make them of. */
async function cut(clip: PicturedClip, { keys, steppingKey }: ClipPictures): Promise<boolean> {
  const { window, widthPx, heightPx } = clip;
  const keyOf = (frame: number) => keys.cut(windowName(window), frame);
  const lengths = await Promise.all(sheetFrames(clip).map(async (frame) => ({ frame, length: await blobs().lengthOf(keyOf(frame)) })));
  const frames = lengths.filter(({ length }) => length === null).map(({ frame }) => frame);
  if (frames.length === 0) return true;
  if ((await blobs().lengthOf(steppingKey)) === null) return false;
  return inWorkFolder(async (folder) => {
    const area = { left: window.x / widthPx, top: window.y / heightPx, width: window.width / widthPx, height: window.height / heightPx };
    const made = await blobs().withFile(steppingKey, (copy) => makeCuts(copy, frames, area, folder));
    for (const [i, still] of made.entries()) await blobs().keepFile(keyOf(frames[i] ?? 0), still);
    return true;
  });
}

/** Writes down what was cut unless events or points have moved on meanwhile, and removes what nobody needs any more; two runs for one swing wait for each other. */
function keepIfCurrent(swing: Cut, clip: PicturedClip, { keys }: ClipPictures): Promise<boolean> {
  const state = (it: PicturedClip) => `${windowName(it.window)} ${sheetFrames(it).join(" ")}`;
  return inTransaction(async (tx) => {
    await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swing.id}::uuid FOR UPDATE`;
    const [now] = await readPicturedClips(tx, swing.academyId, [clip.id]);
    if (!now || state(now) !== state(clip)) return false;
    const left = await keepStills(tx, swing, clip.id, { window: windowName(clip.window), frames: sheetFrames(clip) });
    // While the swing is held: a run that needs them again then cuts them anew.
    for (const frame of left?.frames ?? []) await blobs().remove(keys.cut(left?.window ?? "", frame));
    return true;
  });
}
