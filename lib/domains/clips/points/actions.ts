"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { workOnClip, type ClipSubject } from "../policy";
import { findClipSubject } from "../scope";
import * as commands from "./commands";
import { placePointsForm, swapPointsForm } from "./schema";

/** Who may work on the clip that the input names. */
const mayWorkOn = <Input extends { clipId: Id }>() =>
  may<Input, ClipSubject, "clip.work-on">(workOnClip, (input: Input, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today));

export const swapPoints = defineAction({
  name: "clips.swap-points",
  input: swapPointsForm,
  policy: mayWorkOn<z.infer<typeof swapPointsForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.swapPoints(tx, actor, granted, input),
});

export const placePoints = defineAction({
  name: "clips.place-points",
  input: placePointsForm,
  policy: mayWorkOn<z.infer<typeof placePointsForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.placePoints(tx, actor, granted, input),
});
