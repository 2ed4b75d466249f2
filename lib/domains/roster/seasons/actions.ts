"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may, mayInAcademy } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { findPlayerSubject } from "../scope";
import * as commands from "./commands";
import * as policy from "./policy";
import { SEASON_WORDS } from "./rules";
import { setSeasonForm, setSeasonsForm } from "./schema";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const setSeason = defineAction({
  name: "roster.set-season",
  input: setSeasonForm,
  policy: may(policy.setSeason, playerOf),
  run: async ({ actor, input, granted, tx }) => {
    await commands.setSeason(tx, actor, granted, input);
    return { message: `Kept. ${SEASON_WORDS[input.season]}.` };
  },
});

export const setSeasons = defineAction({
  name: "roster.set-seasons",
  input: setSeasonsForm,
  policy: mayInAcademy<z.infer<typeof setSeasonsForm>, "roster.plan-seasons">(policy.planSeasons),
  run: async ({ actor, input, granted, tx }) => {
    const count = await commands.setSeasons(tx, actor, granted, input);
    return { message: `Kept for ${count === 1 ? "one player" : `${count} players`}. ${SEASON_WORDS[input.season]}.` };
  },
});
