import { createReadStream, createWriteStream } from "node:fs";
import { mkdir, rename, rm, stat } from "node:fs/promises";
import path from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { settings } from "./settings";

/**
 * Bytes under a key. Keys are ours (hashes and identifiers, parted by "/"), never a name that a person gave.
 * A blob appears whole or not at all.
 */
export interface Blobs {
  /** Takes over a finished file of this machine; the file is moved. */
  keepFile(key: string, filePath: string): Promise<void>;
  keepStream(key: string, bytes: Readable): Promise<void>;
  /** Length in bytes, or null when there is no such blob. */
  lengthOf(key: string): Promise<number | null>;
  /** The bytes from start to end, both included. */
  read(key: string, range?: { start: number; end: number }): Readable;
  remove(key: string): Promise<void>;
  /** A path of this machine from which a program can read the blob. */
  pathOf(key: string): Promise<string>;
}

const KEY = /^[a-z0-9][a-z0-9.-]*(\/[a-z0-9][a-z0-9.-]*)+$/;

export function diskBlobs(folder: string): Blobs {
  const at = (key: string) => {
    if (!KEY.test(key) || key.includes("..")) throw new RangeError("not a blob key");
    return path.join(folder, key);
  };
  const place = async (key: string, write: (temporary: string) => Promise<void>) => {
    const target = at(key);
    await mkdir(path.dirname(target), { recursive: true });
    const temporary = `${target}.${crypto.randomUUID()}.part`;
    try {
      await write(temporary);
      await rename(temporary, target);
    } finally {
      await rm(temporary, { force: true });
    }
  };
  return {
    keepFile: (key, filePath) =>
      place(key, async (temporary) => {
        await rename(filePath, temporary).catch(async (error: NodeJS.ErrnoException) => {
          if (error.code !== "EXDEV") throw error;
          await pipeline(createReadStream(filePath), createWriteStream(temporary));
          await rm(filePath, { force: true });
        });
      }),
    keepStream: (key, bytes) => {
      // A source that fails before it is joined to the file must not fail unheard: the pipeline then reports it.
      bytes.once("error", () => undefined);
      return place(key, (temporary) => pipeline(bytes, createWriteStream(temporary)));
    },
    async lengthOf(key) {
      const found = await stat(at(key)).catch(() => null);
      return found ? found.size : null;
    },
    read: (key, range) => createReadStream(at(key), range),
    remove: (key) => rm(at(key), { force: true }),
    pathOf: async (key) => at(key),
  };
}

let kept: Blobs | null = null;

/** The academy's bytes: a folder of this machine (BLOB_DIR). */
export function blobs(): Blobs {
  kept ??= diskBlobs(settings().BLOB_DIR);
  return kept;
}
