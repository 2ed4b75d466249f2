import { ToldProblem } from "./told-problem";

/** How often, and after how long, a line that was lost is tried again by itself. */
const againAfterMs = [400, 1500, 4000];

const notThere = "The stepping copy of this clip is not there, so it cannot be stepped. The clip and all that was placed on it are kept; open the page again in a while.";
const lineLost = "The line was lost while the pictures came. Nothing that was placed is lost; try again when there is signal.";

export interface FetchOptions {
  readonly signal: AbortSignal;
  /** Part of the bytes that have come, 0 to 1. */
  readonly onProgress: (part: number) => void;
  readonly fetchBytes?: typeof fetch;
  readonly waitMs?: (ms: number) => Promise<void>;
}

/**
 * Fetches a stepping copy whole, so that stepping needs no line afterwards. A line that breaks is taken up again where it
 * broke.
 * @throws ToldProblem when the copy is not there or the line stays lost
 */
export async function fetchCopy(url: string, { signal, onProgress, fetchBytes = fetch, waitMs = pause }: FetchOptions): Promise<Blob> {
  let parts: BlobPart[] = [];
  let got = 0;
  for (let attempt = 0; ; attempt += 1) {
    try {
      const answer = await fetchBytes(url, { signal, credentials: "same-origin", headers: got > 0 ? { range: `bytes=${got}-` } : {} });
      if (answer.status === 404 || answer.status === 410) throw new NotThere(notThere);
      if (!answer.ok || !answer.body) throw new Error(`answered ${answer.status}`);
      if (got > 0 && answer.status !== 206) [parts, got] = [[], 0];
      const total = got + (Number(answer.headers.get("content-length")) || 0);
      const reader = answer.body.getReader();
      for (let read = await reader.read(); !read.done; read = await reader.read()) {
        parts.push(read.value);
        got += read.value.byteLength;
        if (total > 0) onProgress(Math.min(1, got / total));
      }
      if (total > 0 && got < total) throw new Error("cut short");
      return new Blob(parts, { type: "video/mp4" });
    } catch (problem) {
      if (signal.aborted || problem instanceof NotThere) throw problem;
      const wait = againAfterMs[attempt];
      if (wait === undefined) throw new ToldProblem(lineLost, { cause: problem });
      await waitMs(wait);
    }
  }
}

class NotThere extends ToldProblem {}

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));
