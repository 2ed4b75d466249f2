import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { removeFolder } from "@/lib/platform/blob-store";
import { blobs } from "@/lib/platform/blobs";
import { inTransaction } from "@/lib/platform/database";
import { fileKeys } from "@/lib/platform/video/incoming";
import { holdFile } from "./commands";
import { fileDropped } from "./events";

/** Takes away the bytes of a file on which no clip rests, with every copy, poster and still; one that was sent anew meanwhile stays. */
export const dropFileBytes = defineJob(fileDropped, async ({ payload: { academyId, contentHash } }) =>
  inTransaction(async (tx) => {
    await holdFile(tx, academyId, contentHash);
    if ((await tx.mediaFile.count({ where: { academyId, contentHash } })) > 0) return skipped("the file was sent anew");
    await removeFolder(blobs(), fileKeys(academyId, contentHash).folder);
    return DONE;
  }),
);
