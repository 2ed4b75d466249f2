"use server";

import type { z } from "zod";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import type { UploadSubject } from "../policy";
import { uploadIdForm } from "../schema";
import { findUploadSubject } from "../scope";
import * as commands from "./commands";
import { retryUploadOf } from "./policy";

export const retryUpload = defineAction({
  name: "clips.retry-upload",
  input: uploadIdForm,
  policy: may<z.infer<typeof uploadIdForm>, UploadSubject, "upload.retry">(retryUploadOf, (input, db, actor) => findUploadSubject(db, { id: input.uploadId, academyId: actor.academyId })),
  run: async ({ granted, tx }) => {
    await commands.retryUpload(tx, granted);
    return { message: "It is looked at once more." };
  },
});
