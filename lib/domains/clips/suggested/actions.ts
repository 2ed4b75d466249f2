"use server";

import type { z } from "zod";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import { ConflictError } from "@/lib/core/errors";
import { settings } from "@/lib/platform/settings";
import { workOnClip, type ClipSubject } from "../policy";
import { clipIdForm } from "../schema";
import { findClipSubject } from "../scope";
import { wantSuggestions } from "./commands";

/** Lets the model look at a clip once more, from the beginning. */
export const lookAgain = defineAction({
  name: "clips.look-again",
  input: clipIdForm,
  policy: may<z.infer<typeof clipIdForm>, ClipSubject, "clip.work-on">(workOnClip, (input, db, actor) => findClipSubject(db, actor.academyId, input.clipId, actor.today)),
  run: async ({ granted, tx }) => {
    if (settings().SUGGEST_POINTS === "off") throw new ConflictError("Suggesting points is switched off here. Nothing was changed.");
    await wantSuggestions(tx, granted, true);
    return { message: "The worker looks again. What you placed stays; suggestions that nobody touched are made anew." };
  },
});
