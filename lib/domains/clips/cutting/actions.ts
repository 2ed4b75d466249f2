"use server";

import type { z } from "zod";
import { authorize, type Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { addClip, type ClipOwner, type ClipSubject } from "../policy";
import { findClipOwner, findClipSubject } from "../scope";
import * as commands from "./commands";
import { cutClip as mayCutClip } from "./policy";
import { cutClipForm, filmToCutForm } from "./schema";

type In<Form extends z.ZodType> = z.infer<Form>;
const clipOf = (input: { clipId: Id }, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today);

/** Cuts swings out of a film, each for the player whose it is. The actor must teach all of them. */
export const cutClip = defineAction({
  name: "clips.cut-clip",
  input: cutClipForm,
  policy: may<In<typeof cutClipForm>, ClipSubject, "clip.cut">(mayCutClip, clipOf),
  run: async ({ actor, input, granted, tx }) => {
    const owners = new Map<Id, Granted<ClipOwner, "clip.add">>();
    for (const playerId of new Set(input.cuts.map((it) => it.playerId))) owners.set(playerId, authorize(actor, addClip, await findClipOwner(tx, actor.academyId, playerId)));
    const made = await commands.cutClip(tx, actor, granted, input.cuts, owners);
    return { data: made, redirectTo: `/swings/${made.swingIds[0]}/cut?made=${made.swingIds.join(",")}` };
  },
});

/** Asks for swings to be looked for in a film. */
export const lookForSwings = defineAction({
  name: "clips.look-for-swings",
  input: filmToCutForm,
  policy: may<In<typeof filmToCutForm>, ClipSubject, "clip.cut">(mayCutClip, clipOf),
  run: async ({ granted, tx }) => commands.askForSwings(tx, granted),
});
