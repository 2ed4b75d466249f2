import { rm } from "node:fs/promises";
import path from "node:path";
import { blobs } from "../blobs";
import { settings } from "../settings";

/** Where bytes lie while they arrive, and under which key they wait to be looked at. Named by the upload, never by the file. */
export function incomingFolder(): string {
  return path.join(settings().BLOB_DIR, "incoming");
}

export function receivedKey(uploadId: string): string {
  return `received/${uploadId}`;
}

/** Moves the bytes that have all arrived to where the worker looks for them. */
export async function keepReceived(uploadId: string): Promise<void> {
  await blobs().keepFile(receivedKey(uploadId), path.join(incomingFolder(), uploadId));
  await rm(path.join(incomingFolder(), `${uploadId}.json`), { force: true });
}

/** Takes away whatever of an upload has arrived; safe to repeat. */
export async function dropReceived(uploadId: string): Promise<void> {
  await blobs().remove(receivedKey(uploadId));
  await rm(path.join(incomingFolder(), uploadId), { force: true });
  await rm(path.join(incomingFolder(), `${uploadId}.json`), { force: true });
}

/** Keys of what is kept of a file: under the academy, by the hash of its bytes. */
export function fileKeys(academyId: string, contentHash: string) {
  const folder = `${academyId}/${contentHash}`;
  return {
    original: `${folder}/original`,
    stepping: `${folder}/stepping.mp4`,
    poster: `${folder}/poster.jpg`,
    still: (frameIndex: number) => `${folder}/stills/${frameIndex}.jpg`,
    /** A frame cut by a window, named "x-y-width-height". */
    cut: (window: string, frameIndex: number) => `${folder}/cuts/${window}/${frameIndex}.jpg`,
  };
}
