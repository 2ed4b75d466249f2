import { readdir, rm, stat } from "node:fs/promises";
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

/** The one picture of a film that is still being looked at. */
export function receivedPosterKey(uploadId: string): string {
  return `received/${uploadId}.jpg`;
}

const incomingPath = (uploadId: string) => path.join(incomingFolder(), uploadId);

/** How many bytes of an upload are here, wherever they lie, and when the last of them came; null when there are none. */
export async function arrivedOf(uploadId: string): Promise<{ readonly byteLength: number; readonly lastAt: Date | null } | null> {
  const incoming = await stat(incomingPath(uploadId)).catch(() => null);
  if (incoming) return { byteLength: incoming.size, lastAt: incoming.mtime };
  const byteLength = await blobs().lengthOf(receivedKey(uploadId));
  return byteLength === null ? null : { byteLength, lastAt: null };
}

/** Moves the bytes that have all arrived to where the worker looks for them. Whoever comes second finds them moved, which is as good. */
export async function keepReceived(uploadId: string): Promise<void> {
  try {
    await blobs().keepFile(receivedKey(uploadId), incomingPath(uploadId));
  } catch (error) {
    const isMoved = (error as NodeJS.ErrnoException).code === "ENOENT" && (await blobs().lengthOf(receivedKey(uploadId))) !== null;
    if (!isMoved) throw error;
  }
  await rm(`${incomingPath(uploadId)}.json`, { force: true });
}

/** Takes away whatever of an upload has arrived; safe to repeat. */
export async function dropReceived(uploadId: string): Promise<void> {
  await blobs().remove(receivedKey(uploadId));
  await blobs().remove(receivedPosterKey(uploadId));
  await rm(incomingPath(uploadId), { force: true });
  await rm(`${incomingPath(uploadId)}.json`, { force: true });
}

/** The uploads of which bytes lie here and have not changed since an instant. */
export async function arrivedBefore(before: Date): Promise<readonly string[]> {
  const names = await readdir(incomingFolder()).catch(() => []);
  const old: string[] = [];
  for (const name of names) if (((await stat(path.join(incomingFolder(), name)).catch(() => null))?.mtime ?? before) < before) old.push(name.replace(/\.json$/, ""));
  const received = (await blobs().keysIn("received")).map((key) => key.slice("received/".length).replace(/\.jpg$/, ""));
  return [...new Set([...old, ...received])];
}

/** Frames of a file, both included. */
export interface Stretch {
  readonly firstFrame: number;
  readonly lastFrame: number;
}

/**
 * Keys of what is kept of a file: under the academy, by the hash of its bytes. A clip that is a stretch of a file has pictures of its own, so
 * that who may watch it cannot see what lies before and after.
 */
export function fileKeys(academyId: string, contentHash: string, stretch: Stretch | null = null) {
  const whole = `${academyId}/${contentHash}`;
  const folder = stretch ? `${whole}/stretches/${stretch.firstFrame}-${stretch.lastFrame}` : whole;
  return {
    folder,
    original: `${whole}/original`,
    stepping: `${folder}/stepping.mp4`,
    poster: `${folder}/poster.jpg`,
    still: (frameIndex: number) => `${folder}/stills/${frameIndex}.jpg`,
    /** A frame cut by a window, named "x-y-width-height". */
    cut: (window: string, frameIndex: number) => `${folder}/cuts/${window}/${frameIndex}.jpg`,
  };
}
