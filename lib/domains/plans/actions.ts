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
import { planFor, writePlan, type PlanSubject } from "./policy";
import * as forms from "./schema";
import { findPlanSubject } from "./scope";
import * as noteCommands from "./together/commands";
import * as weekCommands from "./week/commands";
import { setWeekdaysForm, suggestWeekForm } from "./week/schema";

type In<Form extends z.ZodType> = z.infer<Form>;
const writers = <Input extends { planId: Id }>() =>
  may<Input, PlanSubject, "plan.write">(writePlan, (input, db, actor) => findPlanSubject(db, actor.academyId, input.planId));
const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const startPlan = defineAction({
  name: "plans.start-plan",
  input: forms.startPlanForm,
  policy: may<In<typeof forms.startPlanForm>, PlayerSubject, "plan.draft">(planFor, playerOf),
  run: async ({ actor, input, granted, tx }) => ({ data: { planId: await commands.startPlan(tx, actor, granted, input) } }),
});

export const setDays = defineAction({
  name: "plans.set-days",
  input: forms.setDaysForm,
  policy: writers<In<typeof forms.setDaysForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.setDays(tx, actor, granted, input),
});

export const addDrill = defineAction({
  name: "plans.add-drill",
  input: forms.planDrillForm,
  policy: writers<In<typeof forms.planDrillForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: `In the plan: “${await commands.addDrill(tx, actor, granted, input.drillId)}”.` }),
});

export const suggestWeek = defineAction({
  name: "plans.suggest-week",
  input: suggestWeekForm,
  policy: writers<In<typeof suggestWeekForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await weekCommands.suggestWeek(tx, actor, granted, input) }),
});

export const setWeekdays = defineAction({
  name: "plans.set-weekdays",
  input: setWeekdaysForm,
  policy: writers<In<typeof setWeekdaysForm>>(),
  run: async ({ actor, input, granted, tx }) => weekCommands.setWeekdays(tx, actor, granted, input),
});

export const removeDrill = defineAction({
  name: "plans.remove-drill",
  input: forms.planDrillForm,
  policy: writers<In<typeof forms.planDrillForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.removeDrill(tx, actor, granted, input.drillId),
});

export const moveDrill = defineAction({
  name: "plans.move-drill",
  input: forms.moveDrillForm,
  policy: writers<In<typeof forms.moveDrillForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.moveDrill(tx, actor, granted, input),
});

export const setDose = defineAction({
  name: "plans.set-dose",
  input: forms.setDoseForm,
  policy: writers<In<typeof forms.setDoseForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.setDose(tx, actor, granted, input),
});

export const chooseCue = defineAction({
  name: "plans.choose-cue",
  input: forms.chooseCueForm,
  policy: writers<In<typeof forms.chooseCueForm>>(),
  run: async ({ actor, input, granted, tx }) => noteCommands.chooseCue(tx, actor, granted, input),
});

export const chooseStill = defineAction({
  name: "plans.choose-still",
  input: forms.chooseStillForm,
  policy: writers<In<typeof forms.chooseStillForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.chooseStill(tx, actor, granted, input),
});

export const writeNote = defineAction({
  name: "plans.write-note",
  input: forms.writeNoteForm,
  policy: writers<In<typeof forms.writeNoteForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    const { told, remarks } = await noteCommands.writeNote(tx, actor, granted, input);
    return { message: ["Kept as a draft.", ...told, ...new Set(remarks.map(({ words }) => words))].join(" ") };
  },
});

export const writePrivateNote = defineAction({
  name: "plans.write-private-note",
  input: forms.writePrivateNoteForm,
  policy: writers<In<typeof forms.writePrivateNoteForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    await noteCommands.writePrivateNote(tx, actor, granted, input);
    return { message: "Kept for coaches only." };
  },
});

export const sendNote = defineAction({
  name: "plans.send-note",
  input: forms.sendNoteForm,
  policy: writers<In<typeof forms.sendNoteForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    const names = await commands.sendNote(tx, actor, granted, input.seen);
    return { message: `Sent to ${names.join(" and ")}.` };
  },
});
