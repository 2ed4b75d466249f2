"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { Database } from "@/lib/platform/database";
import { judgeSwings } from "../policy";
import { answerQuestionForm, askForWorkForm, noteCueForm, takeBackAnswerForm } from "../schema";
import * as commands from "./commands";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const judges = <Input extends { playerId: Id }>() => may<Input, PlayerSubject, "reasoning.judge">(judgeSwings, playerOf);

export const answerQuestion = defineAction({
  name: "observations.answer-question",
  input: answerQuestionForm,
  policy: judges<z.infer<typeof answerQuestionForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.answerQuestion(tx, actor, granted, input) }),
});

export const takeBackAnswer = defineAction({
  name: "observations.take-back-answer",
  input: takeBackAnswerForm,
  policy: judges<z.infer<typeof takeBackAnswerForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.takeBackAnswer(tx, granted, input.side, input.questionId) }),
});

export const noteCue = defineAction({
  name: "observations.note-cue",
  input: noteCueForm,
  policy: judges<z.infer<typeof noteCueForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.noteCue(tx, actor, granted, input) }),
});

export const askForOrder = defineAction({
  name: "observations.ask-for-order",
  input: askForWorkForm,
  policy: judges<z.infer<typeof askForWorkForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    await commands.askForOrder(tx, actor, granted, input.side, input.kind);
  },
});
