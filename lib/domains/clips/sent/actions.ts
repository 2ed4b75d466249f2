"use server";

import type { z } from "zod";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { ClipOwner } from "../policy";
import { findClipOwner } from "../scope";
import * as commands from "./commands";
import { answerSent as mayAnswer, sendClip, type SentSubject } from "./policy";
import { answerForm, beginSentForm } from "./schema";
import { findSentSubject } from "./scope";

/** A family begins to send a clip to the coach. */
export const beginSent = defineAction({
  name: "clips.begin-sent",
  input: beginSentForm,
  policy: may<z.infer<typeof beginSentForm>, ClipOwner, "clip.send">(sendClip, (input, db, actor) => findClipOwner(db, actor.academyId, input.playerId)),
  run: async ({ actor, input, granted, tx }) => ({ data: await commands.beginSent(tx, actor, granted, input) }),
});

export const answerSent = defineAction({
  name: "clips.answer-sent",
  input: answerForm,
  policy: may<z.infer<typeof answerForm>, SentSubject, "clip.answer">(mayAnswer, (input, db, actor) => findSentSubject(db, actor.academyId, input.sentId, actor.today)),
  run: async ({ actor, input, granted, tx }) => ({ message: `Sent to ${(await commands.answerSent(tx, actor, granted, input)).join(", ")}.` }),
});
