"use server";

import type { z } from "zod";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { ClipSubject } from "../policy";
import { clipIdForm } from "../schema";
import { findClipSubject } from "../scope";
import * as commands from "./commands";
import { eraseClipOf } from "./policy";

export const eraseClip = defineAction({
  name: "clips.erase-clip",
  input: clipIdForm,
  policy: may<z.infer<typeof clipIdForm>, ClipSubject, "clip.erase">(eraseClipOf, (input, db, actor) => findClipSubject(db, actor.academyId, input.clipId, actor.today)),
  run: async ({ actor, granted, tx }) => {
    const { isSwingGone } = await commands.eraseClip(tx, granted, actor.today);
    const message = isSwingGone ? "The clip was erased, and its swing with it." : "The clip was erased. The swing keeps its other clips.";
    return { message, data: { isSwingGone }, redirectTo: isSwingGone ? `/players/${granted.playerId}` : undefined };
  },
});
