import type { FrameTimes } from "@/lib/core/frame-times";
import { fetchCopy } from "./fetch-copy";
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
}

/**
 * Fetches the stepping copy once, checks that it has the clip's own frames, and opens the best way of showing them.
 * @throws ToldProblem when the clip cannot be shown
 */
export async function openFrameSource(options: OpenOptions): Promise<FrameSource> {
  const blob = await fetchCopy(options.url, options);
  const copy = await readSteppingCopy(blob, options.frameTimes);
  if (options.signal.aborted) {
    copy.close();
    throw new DOMException("left", "AbortError");
  }
  if (await canDecode(copy.config)) return new WebCodecsFrames(copy);
  copy.close();
  return VideoElementFrames.open(blob, copy.frames.map((it) => it.microseconds));
}
