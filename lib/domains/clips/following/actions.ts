"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Database } from "@/lib/platform/database";
import { workOnClip, type ClipSubject } from "../policy";
import { findClipSubject } from "../scope";
import * as commands from "./commands";
import { placeFollowedForm } from "./schema";

type Input = z.infer<typeof placeFollowedForm>;

export const placeFollowed = defineAction({
  name: "clips.place-followed",
  input: placeFollowedForm,
  policy: may<Input, ClipSubject, "clip.work-on">(workOnClip, (input: Input, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today)),
  run: async ({ actor, input, granted, tx }) => commands.placeFollowed(tx, actor, granted, input),
});
