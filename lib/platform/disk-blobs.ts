import { createReadStream, createWriteStream } from "node:fs";
import { mkdir, readdir, rename, rm, stat } from "node:fs/promises";
import path from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { checkedFolder, checkedKey } from "./blob-keys";
import type { Blobs } from "./blob-store";
import { BlobLostError, storeError } from "./store-errors";

const UNFINISHED = ".part";

/** Blobs as files in a folder of this machine. */
export function diskBlobs(folder: string): Blobs {
  const at = (key: string) => path.join(folder, checkedKey(key));
  const place = async (key: string, write: (temporary: string) => Promise<void>) => {
    const target = at(key);
    const temporary = `${target}.${crypto.randomUUID()}${UNFINISHED}`;
    try {
      await mkdir(path.dirname(target), { recursive: true });
      await write(temporary);
      await rename(temporary, target);
    } catch (error) {
      throw storeError(error);
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
      return found?.isFile() ? found.size : null;
    },
    read: (key, range) => {
      const file = at(key);
      return Readable.from(bytesOf(file, range), { objectMode: false });
    },
    remove: (key) => rm(at(key), { force: true }),
    async keysIn(inFolder) {
      const names = await filesUnder(path.join(folder, checkedFolder(inFolder)));
      return names.filter((name) => !name.endsWith(UNFINISHED)).map((name) => path.relative(folder, name).split(path.sep).join("/"));
    },
    async withFile(key, work) {
      const file = at(key);
      if (!(await stat(file).catch(() => null))) throw new BlobLostError();
      return work(file);
    },
    async removeUnfinished(before) {
      let count = 0;
      for (const name of await filesUnder(folder)) {
        if (!name.endsWith(UNFINISHED) || ((await stat(name).catch(() => null))?.mtime ?? before) >= before) continue;
        await rm(name, { force: true });
        count += 1;
      }
      return count;
    },
  };
}

async function* bytesOf(file: string, range?: { start: number; end: number }): AsyncGenerator<Buffer> {
  try {
    for await (const piece of createReadStream(file, range)) yield piece as Buffer;
  } catch (error) {
    throw (error as NodeJS.ErrnoException).code === "ENOENT" ? new BlobLostError() : error;
  }
}

/** Every file below a folder, in order; none when there is no such folder. */
async function filesUnder(folder: string): Promise<string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true }).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT" || error.code === "ENOTDIR") return [];
    throw error;
  });
  return found.filter((it) => it.isFile()).map((it) => path.join(it.parentPath, it.name)).sort();
}
