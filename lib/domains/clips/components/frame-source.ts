import type { FrameTimes } from "@/lib/core/frame-times";
import { readSteppingCopy } from "./stepping-copy";
import { canDecode, WebCodecsFrames } from "./webcodecs-frames";
import type { FrameSource } from "./frame-source-type";
import { VideoElementFrames } from "./video-element-frames";

export interface OpenOptions {
  readonly url: string;
  readonly frameTimes: FrameTimes;
  readonly signal: AbortSignal;
  /** Part of the bytes that have come, 0 to 1. */
  readonly onProgress: (part: number) => void;
  /** Most bytes that ready pictures may take. */
  readonly budgetBytes?: number;
}

const defaultBudgetBytes = 160_000_000;

/**
 * Fetches the stepping copy once, checks that it has the clip's own frames, and opens the best way of showing them.
 * @throws Error with a sentence for the person who looks, when the clip cannot be shown
 */
export async function openFrameSource(options: OpenOptions): Promise<FrameSource> {
  const blob = await fetchOnce(options);
  const copy = await readSteppingCopy(blob, options.frameTimes);
  if (options.signal.aborted) {
    copy.close();
    throw new DOMException("left", "AbortError");
  }
  if (await canDecode(copy.config)) return new WebCodecsFrames(copy, options.budgetBytes ?? defaultBudgetBytes);
  copy.close();
  return VideoElementFrames.open(blob, copy.frames.map((it) => it.microseconds));
}

async function fetchOnce({ url, signal, onProgress }: OpenOptions): Promise<Blob> {
  const answer = await fetch(url, { signal, credentials: "same-origin" });
  if (!answer.ok || !answer.body) throw new Error("The pictures of this clip did not come. Nothing was lost; please open the page again.");
  const total = Number(answer.headers.get("content-length")) || 0;
  const reader = answer.body.getReader();
  const parts: BlobPart[] = [];
  let got = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    parts.push(value);
    got += value.byteLength;
    if (total > 0) onProgress(Math.min(1, got / total));
  }
  return new Blob(parts, { type: "video/mp4" });
}
