"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import { sayIn } from "@/lib/core/words/catalogue";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { countPractice, takeBackPractice } from "./commands";
import { logHomework } from "./policy";
import { correctPracticeForm, logPracticeForm, undoPracticeForm } from "./schema";
import { findHomeworkSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const homeworkOf = <Input extends { planDrillId: Id }>(input: Input, db: Database, actor: Person) => findHomeworkSubject(db, actor.academyId, input.planDrillId);

export const logPractice = defineAction({
  name: "practice.log-practice",
  input: logPracticeForm,
  policy: may(logHomework, homeworkOf<In<typeof logPracticeForm>>),
  run: async ({ actor, input, granted, tx }) => {
    const { times } = await countPractice(tx, actor, granted, { day: input.day, times: null });
    return { message: sayIn(actor.language)("Done. {count} counted.", { count: times }) };
  },
});

export const correctPractice = defineAction({
  name: "practice.correct-practice",
  input: correctPracticeForm,
  policy: may(logHomework, homeworkOf<In<typeof correctPracticeForm>>),
  run: async ({ actor, input, granted, tx }) => {
    const { times } = await countPractice(tx, actor, granted, { day: input.day, times: input.times });
    return { message: sayIn(actor.language)("Kept. {count} counted now.", { count: times }) };
  },
});

export const undoPractice = defineAction({
  name: "practice.undo-practice",
  input: undoPracticeForm,
  policy: may(logHomework, homeworkOf<In<typeof undoPracticeForm>>),
  run: async ({ actor, input, granted, tx }) => {
    await takeBackPractice(tx, actor, granted, { day: input.day });
    return { message: "Taken back. Nothing is counted for this drill today." };
  },
});
