"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { dropReceived } from "@/lib/platform/video/incoming";
import * as commands from "./commands";
import { addClip, removeMarkOf, settleUpload, workOnClip, type ClipOwner, type ClipSubject, type MarkSubject } from "./policy";
import {
  addMarkForm, beginUploadForm, clearEventForm, markIdForm, placePointForm, pointForm, setCameraLineForm, setClipFactsForm, setClipTimeForm, setEventForm, uploadIdForm,
} from "./schema";
import { findClipOwner, findClipSubject, findMarkSubject, findUploadSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const clipOf = (input: { clipId: Id }, db: Database, actor: Person) => findClipSubject(db, actor.academyId, input.clipId, actor.today);
const uploadOf = (input: { uploadId: Id }, db: Database, actor: Person) => findUploadSubject(db, { id: input.uploadId, academyId: actor.academyId });
const ownerOf = (input: { playerId: Id }, db: Database, actor: Person) => findClipOwner(db, actor.academyId, input.playerId);

/** Who may work on the clip that the input names. */
const mayWorkOn = <Input extends { clipId: Id }>() => may<Input, ClipSubject, "clip.work-on">(workOnClip, clipOf);

export const beginUpload = defineAction({
  name: "clips.begin-upload",
  input: beginUploadForm,
  policy: may<In<typeof beginUploadForm>, ClipOwner, "clip.add">(addClip, ownerOf),
  run: async ({ actor, input, granted, tx }) => ({ data: await commands.beginUpload(tx, actor, granted, input) }),
});

export const cancelUpload = defineAction({
  name: "clips.cancel-upload",
  input: uploadIdForm,
  policy: may(settleUpload, uploadOf),
  run: async ({ granted, tx }) => {
    await commands.cancelUpload(tx, granted);
    await dropReceived(granted.id);
    return { message: "This sending was taken back. Nothing of it was kept." };
  },
});

export const dismissUpload = defineAction({
  name: "clips.dismiss-upload",
  input: uploadIdForm,
  policy: may(settleUpload, uploadOf),
  run: async ({ granted, tx }) => commands.dismissUpload(tx, granted),
});

export const setEvent = defineAction({
  name: "clips.set-event",
  input: setEventForm,
  policy: mayWorkOn<In<typeof setEventForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.setEvent(tx, actor, granted, input),
});

export const clearEvent = defineAction({
  name: "clips.clear-event",
  input: clearEventForm,
  policy: mayWorkOn<In<typeof clearEventForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.clearEvent(tx, actor, granted, input),
});

export const placePoint = defineAction({
  name: "clips.place-point",
  input: placePointForm,
  policy: mayWorkOn<In<typeof placePointForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.placePoint(tx, actor, granted, input),
});

export const markPointUnseen = defineAction({
  name: "clips.mark-point-unseen",
  input: pointForm,
  policy: mayWorkOn<In<typeof pointForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.markPointUnseen(tx, actor, granted, input),
});

export const removePoint = defineAction({
  name: "clips.remove-point",
  input: pointForm,
  policy: mayWorkOn<In<typeof pointForm>>(),
  run: async ({ actor, input, granted, tx }) => commands.removePoint(tx, actor, granted, input),
});

export const addMark = defineAction({
  name: "clips.add-mark",
  input: addMarkForm,
  policy: mayWorkOn<In<typeof addMarkForm>>(),
  run: async ({ actor, input, granted, tx }) => ({ data: { markId: await commands.addMark(tx, actor, granted, input) } }),
});

export const removeMark = defineAction({
  name: "clips.remove-mark",
  input: markIdForm,
  policy: may<In<typeof markIdForm>, MarkSubject, "mark.remove">(removeMarkOf, (input, db, actor) => findMarkSubject(db, actor.academyId, input.markId, actor.today)),
  run: async ({ granted, tx }) => commands.removeMark(tx, granted),
});

export const setClipFacts = defineAction({
  name: "clips.set-clip-facts",
  input: setClipFactsForm,
  policy: mayWorkOn<In<typeof setClipFactsForm>>(),
  run: async ({ input, granted, tx }) => {
    await commands.setClipFacts(tx, granted, input);
    return { message: "Kept. The readings are made anew." };
  },
});

export const setCameraLine = defineAction({
  name: "clips.set-camera-line",
  input: setCameraLineForm,
  policy: mayWorkOn<In<typeof setCameraLineForm>>(),
  run: async ({ input, granted, tx }) => commands.setCameraLine(tx, granted, input),
});

export const setClipTime = defineAction({
  name: "clips.set-clip-time",
  input: setClipTimeForm,
  policy: mayWorkOn<In<typeof setClipTimeForm>>(),
  run: async ({ input, granted, tx }) => commands.setClipTime(tx, granted, input),
});
