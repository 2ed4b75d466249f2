import type { z } from "zod";
import { defineRoute } from "@/lib/access/define-route";
import { may } from "@/lib/access/guard";
import { bytesResponse } from "@/lib/platform/blob-response";
import { receivedPosterKey } from "@/lib/platform/video/incoming";
import { uploadIdForm } from "../schema";
import { seeArriving, type ArrivingSubject } from "./policy";
import { findArrivingSubject } from "./scope";

/** The one picture of a film that is still being looked at: there in a small part of the time that the stepping copy takes. */
export const showArrivingPoster = defineRoute({
  name: "clips.show-arriving-poster",
  read: (_request, params) => ({ uploadId: params.uploadId }),
  input: uploadIdForm,
  policy: may<z.infer<typeof uploadIdForm>, ArrivingSubject, "upload.see">(seeArriving, (input, db, actor) => findArrivingSubject(db, actor.academyId, input.uploadId, actor.today)),
  run: async ({ request, granted }) => bytesResponse(request, granted.keptPosterKey ?? receivedPosterKey(granted.id), "image/jpeg", `${granted.id}-poster`, { isMadeOnDemand: true }),
});
