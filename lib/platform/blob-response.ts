import { Readable } from "node:stream";
import { NotFoundError } from "@/lib/core/errors";
import { blobs } from "./blobs";
import { BlobLostError } from "./store-errors";
import { byteRangeOf } from "./video/byte-range";

const ASKED_EACH_TIME = "no-cache";

/**
 * The bytes under a key as an answer, whole or in part. Only a browser may keep them; how long it may show them without asking anew is
 * said in `keptFor`, in the words of the cache-control header.
 * @throws BlobLostError when there are none; NotFoundError where bytes are made on demand and were not made yet
 */
export async function bytesResponse(request: Request, key: string, type: string, tag: string, { keptFor = ASKED_EACH_TIME, isMadeOnDemand = false } = {}): Promise<Response> {
  const length = await blobs().lengthOf(key);
  if (length === null) throw isMadeOnDemand ? new NotFoundError() : new BlobLostError();
  const headers: Record<string, string> = {
    "content-type": type, "accept-ranges": "bytes", "cache-control": `private, ${keptFor}`, etag: `"${tag}"`, vary: "cookie",
    "x-content-type-options": "nosniff", "cross-origin-resource-policy": "same-origin", "content-disposition": "inline",
  };
  if (request.headers.get("if-none-match") === headers.etag) return new Response(null, { status: 304, headers });
  const isSame = [null, headers.etag].includes(request.headers.get("if-range"));
  const range = isSame ? byteRangeOf(request.headers.get("range"), length) : null;
  if (range === "none") return new Response(null, { status: 416, headers: { ...headers, "content-range": `bytes */${length}` } });
  const body = Readable.toWeb(blobs().read(key, range ?? undefined)) as ReadableStream<Uint8Array>;
  if (!range) return new Response(body, { headers: { ...headers, "content-length": String(length) } });
  return new Response(body, {
    status: 206,
    headers: { ...headers, "content-length": String(range.end - range.start + 1), "content-range": `bytes ${range.start}-${range.end}/${length}` },
  });
}
