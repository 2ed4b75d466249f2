import { createReadStream, createWriteStream } from "node:fs";
import { rm, stat } from "node:fs/promises";
import path from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { S3 } from "@aws-sdk/client-s3";
import { checkedFolder, checkedKey } from "./blob-keys";
import type { Blobs } from "./blob-store";
import { BlobLostError, storeError } from "./store-errors";

/** Where an object store is and how one gets in; without a key the machine's own rights count. */
export interface S3Place {
  readonly bucket: string;
  readonly endpoint: string | undefined;
  readonly region: string;
  readonly key: { readonly accessKeyId: string; readonly secretAccessKey: string } | undefined;
}

/** Lends a folder of this machine to some work. */
type Scratch = <T>(work: (folder: string) => Promise<T>) => Promise<T>;

/** Blobs as objects of a bucket. An object appears whole or not at all by the store's own promise. */
export function s3Blobs({ bucket: Bucket, endpoint, region, key: credentials }: S3Place, inScratch: Scratch): Blobs {
  let opened: Promise<S3> | null = null;
  // Loaded only where a store is set: it is large. Sums in a trailer of the bytes are not understood by every store; length and our own hash are compared instead.
  const store = () =>
    (opened ??= import("@aws-sdk/client-s3").then(
      ({ S3: Store }) => new Store({ region, endpoint, credentials, forcePathStyle: endpoint !== undefined, maxAttempts: 3, requestChecksumCalculation: "WHEN_REQUIRED", responseChecksumValidation: "WHEN_REQUIRED" }),
    ));
  const put = async (key: string, filePath: string) => {
    const Key = checkedKey(key);
    const { size } = await stat(filePath);
    await (await store()).putObject({ Bucket, Key, Body: createReadStream(filePath), ContentLength: size }).catch(rethrow);
  };
  const inFolder = <T>(work: (file: string) => Promise<T>): Promise<T> => inScratch((folder) => work(path.join(folder, "bytes")));
  async function* bytesOf(Key: string, range?: { start: number; end: number }): AsyncGenerator<Buffer> {
    const Range = range && `bytes=${range.start}-${range.end}`;
    const { Body, ContentLength } = await (await store()).getObject({ Bucket, Key, Range }).catch(rethrow);
    // A store may answer a part with the whole; then the part is cut out here.
    const cut = range && ContentLength !== range.end - range.start + 1 ? range : null;
    let at = 0;
    for await (const piece of Body as Readable) {
      const bytes = piece as Buffer;
      yield cut ? bytes.subarray(Math.max(0, cut.start - at), Math.max(0, cut.end + 1 - at)) : bytes;
      at += bytes.length;
      if (cut && at > cut.end) return;
    }
  }
  return {
    async keepFile(key, filePath) {
      await put(key, filePath);
      await rm(filePath, { force: true });
    },
    async keepStream(key, bytes) {
      bytes.once("error", () => undefined);
      checkedKey(key);
      // The store wants to know the length before the first byte.
      await inFolder(async (file) => {
        await pipeline(bytes, createWriteStream(file)).catch(rethrow);
        await put(key, file);
      });
    },
    async lengthOf(key) {
      const found = await (await store()).headObject({ Bucket, Key: checkedKey(key) }).catch((error: unknown) => (isAbsent(error) ? null : rethrow(error)));
      return found ? (found.ContentLength ?? 0) : null;
    },
    read: (key, range) => Readable.from(bytesOf(checkedKey(key), range), { objectMode: false }),
    async remove(key) {
      await (await store()).deleteObject({ Bucket, Key: checkedKey(key) }).catch((error: unknown) => (isAbsent(error) ? null : rethrow(error)));
    },
    async keysIn(folder) {
      const keys: string[] = [];
      let ContinuationToken: string | undefined;
      do {
        const page = await (await store()).listObjectsV2({ Bucket, Prefix: `${checkedFolder(folder)}/`, ContinuationToken }).catch(rethrow);
        keys.push(...(page.Contents ?? []).flatMap(({ Key }) => Key ?? []));
        ContinuationToken = page.IsTruncated ? page.NextContinuationToken : undefined;
      } while (ContinuationToken !== undefined);
      return keys.sort();
    },
    withFile: (key, work) =>
      inFolder(async (file) => {
        await pipeline(Readable.from(bytesOf(checkedKey(key)), { objectMode: false }), createWriteStream(file)).catch(rethrow);
        return work(file);
      }),
    removeUnfinished: async () => 0,
  };
}

function isAbsent(error: unknown): boolean {
  if (!(error instanceof Error) || !("$metadata" in error) || error.name === "NoSuchBucket") return false;
  return (error.$metadata as { readonly httpStatusCode?: number }).httpStatusCode === 404;
}

function rethrow(error: unknown): never {
  throw isAbsent(error) ? new BlobLostError() : storeError(error);
}
