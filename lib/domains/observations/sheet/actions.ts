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
import * as commands from "./commands";
import { keepOwnBestForm, takeBackOwnBestForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const judges = <Input extends { playerId: Id }>() => may<Input, PlayerSubject, "reasoning.judge">(judgeSwings, playerOf);

export const keepOwnBest = defineAction({
  name: "observations.keep-own-best",
  input: keepOwnBestForm,
  policy: judges<z.infer<typeof keepOwnBestForm>>(),
  run: async ({ actor, input, granted, tx }) => {
    const { ownBestId, message } = await commands.keepOwnBest(tx, actor, granted, input.clipId);
    return { message, data: { ownBestId } };
  },
});

export const takeBackOwnBest = defineAction({
  name: "observations.take-back-own-best",
  input: takeBackOwnBestForm,
  policy: judges<z.infer<typeof takeBackOwnBestForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.takeBackOwnBest(tx, granted, input.ownBestId) }),
});
