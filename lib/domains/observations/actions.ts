"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import { judgeSwings } from "./policy";
import { answerCauseForm, callFaultForm, changeFocusForm, chooseFocusForm, overruleForm, resumeFocusForm, undoOverruleForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const judges = <Input extends { playerId: Id }>() => may<Input, PlayerSubject, "reasoning.judge">(judgeSwings, playerOf);

export const callFault = defineAction({
  name: "observations.call-fault",
  input: callFaultForm,
  policy: judges<z.infer<typeof callFaultForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.callFault(tx, actor, granted, input) }),
});

export const answerCause = defineAction({
  name: "observations.answer-cause",
  input: answerCauseForm,
  policy: judges<z.infer<typeof answerCauseForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.answerCause(tx, actor, granted, input) }),
});

export const overruleFault = defineAction({
  name: "observations.overrule-fault",
  input: overruleForm,
  policy: judges<z.infer<typeof overruleForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.overruleFault(tx, actor, granted, input) }),
});

export const undoOverrule = defineAction({
  name: "observations.undo-overrule",
  input: undoOverruleForm,
  policy: judges<z.infer<typeof undoOverruleForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.undoOverrule(tx, granted, input.side, input.overruleId) }),
});

export const chooseFocus = defineAction({
  name: "observations.choose-focus",
  input: chooseFocusForm,
  policy: judges<z.infer<typeof chooseFocusForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.chooseFocus(tx, actor, granted, input) }),
});

export const parkFocus = defineAction({
  name: "observations.park-focus",
  input: changeFocusForm,
  policy: judges<z.infer<typeof changeFocusForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.parkFocus(tx, granted, input.side, input.focusId) }),
});

export const resumeFocus = defineAction({
  name: "observations.resume-focus",
  input: resumeFocusForm,
  policy: judges<z.infer<typeof resumeFocusForm>>(),
  run: async ({ actor, input, granted, tx }) => ({
    message: await commands.resumeFocus(tx, actor, granted, input.side, input.focusId, input.parkId),
  }),
});

export const endFocus = defineAction({
  name: "observations.end-focus",
  input: changeFocusForm,
  policy: judges<z.infer<typeof changeFocusForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.endFocus(tx, granted, input.side, input.focusId) }),
});
