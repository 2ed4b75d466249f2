import type { Readable } from "node:stream";

/**
 * Bytes under a key. Keys are ours (hashes and identifiers, parted by "/"), never a name that a person gave.
 * A blob appears whole or not at all, and whoever writes the same key last has written it.
 * What cannot be done is a StoreFullError, a BlobLostError or a StoreAwayError; a key that is not ours a RangeError.
 */
export interface Blobs {
  /** Takes over a finished file of this machine; the file is moved. */
  keepFile(key: string, filePath: string): Promise<void>;
  keepStream(key: string, bytes: Readable): Promise<void>;
  /** Length in bytes, or null when there is no such blob. */
  lengthOf(key: string): Promise<number | null>;
  /** The bytes from start to end, both included. A blob that is not there fails the stream with a BlobLostError. */
  read(key: string, range?: { start: number; end: number }): Readable;
  remove(key: string): Promise<void>;
  /** Every key in a folder, in order. */
  keysIn(folder: string): Promise<readonly string[]>;
  /** Lets a program read the blob from a path of this machine; the path holds while the work goes on. @throws BlobLostError */
  withFile<T>(key: string, work: (path: string) => Promise<T>): Promise<T>;
  /** Takes away what was begun before an instant and never became a blob. @returns how many */
  removeUnfinished(before: Date): Promise<number>;
}

/** Takes away every blob in a folder; safe to repeat. */
export async function removeFolder(store: Blobs, folder: string): Promise<number> {
  const keys = await store.keysIn(folder);
  for (const key of keys) await store.remove(key);
  return keys.length;
}
