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
import { callSymptomForm, noteBallForm, takeBackBallForm } from "../schema";
import * as commands from "./commands";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const judges = <Input extends { playerId: Id }>() => may<Input, PlayerSubject, "reasoning.judge">(judgeSwings, playerOf);

export const noteBall = defineAction({
  name: "observations.note-ball",
  input: noteBallForm,
  policy: judges<z.infer<typeof noteBallForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.noteBall(tx, actor, granted, input) }),
});

export const takeBackBall = defineAction({
  name: "observations.take-back-ball",
  input: takeBackBallForm,
  policy: judges<z.infer<typeof takeBackBallForm>>(),
  run: async ({ input, granted, tx }) => ({ message: await commands.takeBackBall(tx, granted, input.side, input.ballId) }),
});

export const callSymptom = defineAction({
  name: "observations.call-symptom",
  input: callSymptomForm,
  policy: judges<z.infer<typeof callSymptomForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ message: await commands.callSymptom(tx, actor, granted, input) }),
});
