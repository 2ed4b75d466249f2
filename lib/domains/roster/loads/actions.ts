"use server";

import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Person } from "@/lib/access/actor";
import { sayIn } from "@/lib/core/words/catalogue";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { findPlayerSubject } from "../scope";
import * as commands from "./commands";
import { countSwings, saySwingsElsewhere as maySaySwingsElsewhere } from "./policy";
import { logSwingsForm, swingsElsewhereForm, takeBackSwingsForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const saySwingsElsewhere = defineAction({
  name: "roster.say-swings-elsewhere",
  input: swingsElsewhereForm,
  policy: may(maySaySwingsElsewhere, playerOf),
  run: async ({ actor, input, granted, tx }) => {
    await commands.saySwingsElsewhere(tx, actor, granted, input);
    return { message: "Kept. Homework leaves room for these swings." };
  },
});

export const logSwings = defineAction({
  name: "roster.log-swings",
  input: logSwingsForm,
  policy: may(countSwings, playerOf),
  run: async ({ actor, input, granted, tx }) => ({
    message: sayIn(actor.language)("Counted as {count, plural, one {# full swing} other {# full swings}}.", { count: await commands.logSwings(tx, actor, granted, input) }),
  }),
});

export const takeBackSwings = defineAction({
  name: "roster.take-back-swings",
  input: takeBackSwingsForm,
  policy: may(countSwings, playerOf),
  run: async ({ actor, input, granted, tx }) => commands.takeBackSwings(tx, actor, granted, input.logId),
});
