"use server";

import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import * as policy from "./policy";
import { agreeInSeasonForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const agreeInSeason = defineAction({
  name: "observations.agree-in-season",
  input: agreeInSeasonForm,
  policy: may(policy.agreeInSeason, playerOf),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.agreeInSeason(tx, actor, granted, input) }),
});
