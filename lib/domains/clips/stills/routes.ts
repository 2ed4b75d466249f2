import type { z } from "zod";
import { defineRoute } from "@/lib/access/define-route";
import { may } from "@/lib/access/guard";
import { bytesResponse } from "@/lib/platform/blob-response";
import { readPictures } from "../cutting/commands";
import { watchClip, type ClipSubject } from "../policy";
import { findClipSubject } from "../scope";
import { noteRead } from "../watching/commands";
import { cutForm } from "./schema";

/** How long a browser may show a still without asking: the quarter hour for which a look is noted once. */
const KEPT_FOR = "max-age=900";

/** A still as the worker cut it; one that is not cut yet is not there. Its address changes with window and frame, so its bytes never do. */
export const showCut = defineRoute({
  name: "clips.show-cut",
  read: (_request, params) => ({ clipId: params.clipId, window: params.window, frameIndex: params.frameIndex }),
  input: cutForm,
  policy: may<z.infer<typeof cutForm>, ClipSubject, "clip.watch">(watchClip, (input, db, actor) => findClipSubject(db, actor.academyId, input.clipId, actor.today)),
  run: async ({ request, actor, input: { window, frameIndex }, granted, db }) => {
    const { keys, tag } = await readPictures(db, granted);
    const answer = await bytesResponse(request, keys.cut(window, frameIndex), "image/jpeg", `${tag}-${window}-${frameIndex}`, { keptFor: KEPT_FOR, isMadeOnDemand: true });
    await noteRead(db, actor, granted);
    return answer;
  },
});
