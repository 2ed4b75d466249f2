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
import { changeWalkthrough, hearWalkthrough, recordFor, type WalkthroughSubject } from "./policy";
import * as forms from "./schema";
import { findWalkthroughSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const walkthroughOf = <Input extends { walkthroughId: Id }>(input: Input, db: Database, actor: Person) =>
  findWalkthroughSubject(db, { id: input.walkthroughId, academyId: actor.academyId }, actor.today);
const makers = <Input extends { walkthroughId: Id }>() => may<Input, WalkthroughSubject, "walkthrough.change">(changeWalkthrough, walkthroughOf);

export const keepTake = defineAction({
  name: "walkthroughs.keep-take",
  input: forms.keepTakeForm,
  policy: may<In<typeof forms.keepTakeForm>, PlayerSubject, "walkthrough.record">(recordFor, (input, db, actor) => findPlayerSubject(db, actor.academyId, input.playerId)),
  run: async ({ actor, input, granted, tx }) => commands.keepTake(tx, actor, granted, input),
});

export const arrangeChapters = defineAction({
  name: "walkthroughs.arrange-chapters",
  input: forms.arrangeForm,
  policy: makers<In<typeof forms.arrangeForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    await commands.arrange(tx, actor, granted, input);
    return { message: "Kept." };
  },
});

export const writeWords = defineAction({
  name: "walkthroughs.write-words",
  input: forms.writeWordsForm,
  policy: makers<In<typeof forms.writeWordsForm>>(),
  run: async ({ input, granted, tx }) => {
    const count = await commands.writeWords(tx, granted, input.captions);
    return { message: count === 0 ? "No captions are kept." : count === 1 ? "One line of captions is kept." : `${count} lines of captions are kept.` };
  },
});

export const writeSummary = defineAction({
  name: "walkthroughs.write-summary",
  input: forms.writeSummaryForm,
  policy: makers<In<typeof forms.writeSummaryForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    await commands.writeSummary(tx, actor, granted, input.summary);
    return { message: "The summary is kept." };
  },
});

export const sendWalkthrough = defineAction({
  name: "walkthroughs.send-walkthrough",
  input: forms.sendForm,
  policy: makers<In<typeof forms.sendForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: `Sent to ${(await commands.sendWalkthrough(tx, actor, granted, input.noteId)).join(", ")}.` }),
});

export const takeBackWalkthrough = defineAction({
  name: "walkthroughs.take-back-walkthrough",
  input: forms.walkthroughForm,
  policy: makers<In<typeof forms.walkthroughForm>>(),
  run: async ({ granted, tx }) => {
    await commands.takeBackWalkthrough(tx, granted);
    return { message: "The family sees it no more. It is kept here." };
  },
});

export const removeWalkthrough = defineAction({
  name: "walkthroughs.remove-walkthrough",
  input: forms.walkthroughForm,
  policy: makers<In<typeof forms.walkthroughForm>>(),
  run: async ({ granted, tx }) => {
    await commands.removeWalkthrough(tx, granted);
    return { redirectTo: `/players/${granted.playerId}/walkthroughs` };
  },
});

/** A film that plays anywhere: the family may ask for one as the coaches may. */
export const askFilm = defineAction({
  name: "walkthroughs.ask-film",
  input: forms.walkthroughForm,
  policy: may<In<typeof forms.walkthroughForm>, WalkthroughSubject, "walkthrough.hear">(hearWalkthrough, walkthroughOf),
  run: async ({ granted, tx }) => {
    await commands.askFilm(tx, granted);
    return { message: "The film is being made. You can leave this page; it is here when you come back." };
  },
});
