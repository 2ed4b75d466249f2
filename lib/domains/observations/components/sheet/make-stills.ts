import { openFrameSource } from "@/lib/domains/clips/components/frame-source";
import type { FrameSource } from "@/lib/domains/clips/components/frame-source-type";
import { toldOf, ToldProblem } from "@/lib/domains/clips/components/told-problem";
import type { RowPicture } from "../../sheet/view";
import { sheetWords as words } from "./sheet-words";

/** A still that the browser made, or why it could not. */
export interface MadeStill {
  readonly url?: string;
  readonly problem?: string;
}

/** Stills are this wide at most: three times a cell at the desk. */
const WIDE_PX = 444;
const DECODE_MS = 15_000;

/**
 * Makes stills of some frames of one clip out of its stepping copy, each given as soon as it is there. Every frame gets a
 * still or a sentence that says why not.
 */
export async function makeStills(picture: RowPicture, frames: readonly number[], signal: AbortSignal, onMade: (frameIndex: number, still: MadeStill) => void): Promise<void> {
  let source: FrameSource | null = null;
  try {
    source = await openFrameSource({ url: picture.steppingUrl, frameTimes: picture.frameTimes, signal, onProgress: () => undefined });
  } catch (problem) {
    if (!signal.aborted) for (const frame of frames) onMade(frame, { problem: toldOf(problem, words.noDecoding) });
    return;
  }
  const canvas = document.createElement("canvas");
  canvas.width = Math.min(WIDE_PX, picture.window.width);
  canvas.height = Math.round((canvas.width * picture.window.height) / picture.window.width);
  try {
    for (const frame of frames) {
      if (signal.aborted) return;
      const made = await oneStill(source, picture, frame, canvas).catch((problem: unknown): MadeStill => ({ problem: toldOf(problem, words.noDecoding) }));
      if (!signal.aborted) onMade(frame, made);
      else if (made.url) URL.revokeObjectURL(made.url);
    }
  } finally {
    source.close();
  }
}

async function oneStill(source: FrameSource, { window, widthPx, heightPx }: RowPicture, frame: number, canvas: HTMLCanvasElement): Promise<MadeStill> {
  await isReady(source, frame);
  const context = canvas.getContext("2d");
  const scale = canvas.width / window.width;
  // The copy may be smaller than the picture; drawn whole at the picture's own size, its pixels fall into place.
  const isDrawn = source.draw(frame, (shown) => context?.drawImage(shown, -window.x * scale, -window.y * scale, widthPx * scale, heightPx * scale));
  if (!isDrawn || !context) throw new ToldProblem(source.isLost(frame) ? words.lostFrame : words.noDecoding);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", 0.88));
  if (!blob) throw new ToldProblem(words.noDecoding);
  return { url: URL.createObjectURL(blob) };
}

/** Waits until a frame can be drawn, or turns out to be lost. @throws ToldProblem when the source gives up or takes too long */
function isReady(source: FrameSource, frame: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const stops = [source.onReady((ready) => ready === frame && end(resolve)), source.onFailed((sentence) => end(() => reject(new ToldProblem(sentence))))];
    const timer = setTimeout(() => end(() => reject(new ToldProblem(words.noDecoding))), DECODE_MS);
    const end = (settle: () => void) => {
      clearTimeout(timer);
      for (const stop of stops) stop();
      settle();
    };
    source.want(frame, 0);
    if (source.draw(frame, () => undefined) || source.isLost(frame)) end(resolve);
  });
}
