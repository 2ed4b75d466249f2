"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may, refusedInWords } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import * as policy from "./policy";
import { playerIdForm, takeBackForm, writeForm } from "./schema";
import { findMessageSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = <Input extends { playerId: Id }>(input: Input, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const sendMessage = defineAction({
  name: "messages.send-message",
  input: writeForm,
  policy: refusedInWords(may<In<typeof writeForm>, PlayerSubject, "messages.write">(policy.writeMessage, playerOf), commands.NOT_IN_THREAD),
  run: async ({ actor, input, granted, tx }) => {
    const goes = await commands.writeMessage(tx, actor, granted, input);
    return { message: goes ? `Kept. It is quiet now: it goes at ${goes}, and you can take it back until then.` : "Sent." };
  },
});

export const takeBackMessage = defineAction({
  name: "messages.take-back",
  input: takeBackForm,
  policy: may<In<typeof takeBackForm>, policy.MessageSubject, "messages.take-back">(policy.takeBackMessage, (input, db, actor) => findMessageSubject(db, actor.academyId, input.messageId)),
  run: async ({ granted, tx }) => {
    await commands.takeBackMessage(tx, granted);
    return { message: "Taken back. Nobody of the family has seen it." };
  },
});

export const settleThread = defineAction({
  name: "messages.settle",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "messages.settle">(policy.settleThread, playerOf),
  run: async ({ granted, tx }) => {
    await commands.settleThread(tx, granted);
    return { message: "Put away. Nobody waits for an answer here." };
  },
});

export const lookAtThread = defineAction({
  name: "messages.look-at-thread",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "messages.write">(policy.writeMessage, playerOf),
  run: async ({ actor, granted, tx }) => commands.markLooked(tx, actor, granted),
});
