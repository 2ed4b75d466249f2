"use server";

import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { findPlayerSubject } from "../scope";
import * as commands from "./commands";
import * as policy from "./policy";
import { noteIncidentForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const noteIncident = defineAction({
  name: "roster.note-incident",
  input: noteIncidentForm,
  policy: may(policy.noteIncident, playerOf),
  run: async ({ actor, input, granted, tx }) => {
    const pauseId = await commands.noteIncident(tx, actor, granted, input);
    return { message: "Kept. Swings are paused now, and family and coaches have been told that something waits.", data: { pauseId } };
  },
});
