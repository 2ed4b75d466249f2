"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { SwingSubject } from "../policy";
import { findSwingSubject } from "../scope";
import * as commands from "./commands";
import { changeModel, keepAsModel, type ModelSubject } from "./policy";
import { editModelForm, keepModelForm, modelIdForm } from "./schema";
import { findModelSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;

/** Who may change the model that the input names. */
const mayChange = <Input extends { modelId: Id }>() =>
  may<Input, ModelSubject, "model.change">(changeModel, (input, db: Database, actor: Person) => findModelSubject(db, actor.academyId, input.modelId));

export const keepModel = defineAction({
  name: "clips.keep-model",
  input: keepModelForm,
  policy: may<In<typeof keepModelForm>, SwingSubject, "swing.keep-as-model">(keepAsModel, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ actor, input, granted, tx }) => {
    const modelId = await commands.keepModel(tx, actor, granted, input);
    return { data: { modelId }, redirectTo: `/library/models?kept=${modelId}` };
  },
});

export const editModel = defineAction({
  name: "clips.edit-model",
  input: editModelForm,
  policy: mayChange<In<typeof editModelForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    await commands.editModel(tx, actor, granted, input);
    return { message: "Kept, and the right is recorded in your name as of today." };
  },
});

export const withdrawModel = defineAction({
  name: "clips.withdraw-model",
  input: modelIdForm,
  policy: mayChange<In<typeof modelIdForm>>(),
  run: async ({ actor, granted, tx }) => {
    await commands.withdrawModel(tx, actor, granted);
    return { redirectTo: `/library/models?withdrawn=${granted.id}` };
  },
});

export const restoreModel = defineAction({
  name: "clips.restore-model",
  input: modelIdForm,
  policy: mayChange<In<typeof modelIdForm>>(),
  run: async ({ actor, granted, tx }) => {
    await commands.restoreModel(tx, actor, granted);
    return { redirectTo: `/library/models?kept=${granted.id}` };
  },
});
