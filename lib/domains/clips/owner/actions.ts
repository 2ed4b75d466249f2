"use server";

import type { z } from "zod";
import { authorize } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { addClip, type SwingSubject, type UploadSubject } from "../policy";
import { findClipOwner, findSwingSubject, findUploadSubject } from "../scope";
import * as commands from "./commands";
import { moveSwing as mayMoveSwing, moveUpload as mayMoveUpload, sortClips } from "./policy";
import { joinSwingsForm, moveSwingForm, moveUploadForm, partClipForm } from "./schema";

type In<Form extends z.ZodType> = z.infer<Form>;
const swingOf = (input: { swingId: Id }, db: Database, actor: Person) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId });
const newOwner = async (actor: Person, db: Database, playerId: Id) => authorize(actor, addClip, await findClipOwner(db, actor.academyId, playerId));

/** Gives a swing to the player whose it is. The actor must teach both. */
export const moveSwing = defineAction({
  name: "clips.move-swing",
  input: moveSwingForm,
  policy: may<In<typeof moveSwingForm>, SwingSubject, "swing.move">(mayMoveSwing, swingOf),
  run: async ({ actor, input, granted, tx }) => ({ data: await commands.moveSwing(tx, actor, granted, await newOwner(actor, tx, input.toPlayerId), input.toSide) }),
});

/** Gives a video to the player whose it is, on its way or when it has become a clip. The actor must teach both. */
export const moveUpload = defineAction({
  name: "clips.move-upload",
  input: moveUploadForm,
  policy: may<In<typeof moveUploadForm>, UploadSubject, "upload.move">(mayMoveUpload, (input, db, actor) => findUploadSubject(db, { id: input.uploadId, academyId: actor.academyId })),
  run: async ({ actor, input, granted, tx }) => {
    const to = await newOwner(actor, tx, input.toPlayerId);
    const made = await tx.upload.findUnique({ where: { id: granted.id }, select: { state: true, wasKnown: true, clip: { select: { swingId: true } } } });
    if (made?.state !== "ready" || made.wasKnown || !made.clip) return commands.moveUpload(tx, actor, granted, to, input.toSide);
    const swing = authorize(actor, mayMoveSwing, await findSwingSubject(tx, { id: made.clip.swingId, academyId: actor.academyId }));
    await commands.moveSwing(tx, actor, swing, to, input.toSide);
  },
});

/** Makes two swings of a player one, seen by more cameras. */
export const joinSwings = defineAction({
  name: "clips.join-swings",
  input: joinSwingsForm,
  policy: may<In<typeof joinSwingsForm>, SwingSubject, "swing.sort-clips">(sortClips, swingOf),
  run: async ({ actor, input, granted, tx }) => {
    const into = authorize(actor, sortClips, await findSwingSubject(tx, { id: input.intoSwingId, academyId: actor.academyId }));
    await commands.joinSwings(tx, granted, into);
    return { data: { swingId: into.id }, redirectTo: `/swings/${into.id}/clips` };
  },
});

/** Makes a clip a swing of its own. */
export const partClip = defineAction({
  name: "clips.part-clip",
  input: partClipForm,
  policy: may<In<typeof partClipForm>, SwingSubject, "swing.sort-clips">(sortClips, swingOf),
  run: async ({ actor, input, granted, tx }) => {
    const swingId = await commands.partClip(tx, actor, granted, input.clipId);
    return { data: { swingId }, redirectTo: `/swings/${swingId}/clips` };
  },
});
