import type { GreyPicture } from "@/lib/measure/following/grey-picture";
import type { FrameSource } from "../frame-source-type";

/** A rectangle of whole pixels of a frame's own picture. */
export interface PicturePart {
  readonly leftPx: number;
  readonly topPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A frame that does not come within so long is done without. */
const MOST_WAIT_MS = 6000;

/** Size of the pictures that a source shows: the stepping copy's, which may be smaller than the file's. Null while the frame is not ready. */
export function copySize(source: FrameSource, frameIndex: number): { readonly widthPx: number; readonly heightPx: number } | null {
  let size: { widthPx: number; heightPx: number } | null = null;
  source.draw(frameIndex, (picture) => {
    if (picture instanceof VideoFrame) size = { widthPx: picture.displayWidth, heightPx: picture.displayHeight };
  });
  return size;
}

/** Part of a frame in grey; null while the frame is not ready. */
export function greyPart(source: FrameSource, frameIndex: number, { leftPx, topPx, widthPx, heightPx }: PicturePart): GreyPicture | null {
  if (widthPx < 2 || heightPx < 2) return null;
  const canvas = document.createElement("canvas");
  canvas.width = widthPx;
  canvas.height = heightPx;
  const pen = canvas.getContext("2d", { alpha: false, willReadFrequently: true });
  if (!pen || !source.draw(frameIndex, (picture) => pen.drawImage(picture, leftPx, topPx, widthPx, heightPx, 0, 0, widthPx, heightPx))) return null;
  const { data } = pen.getImageData(0, 0, widthPx, heightPx);
  const values = new Uint8Array(widthPx * heightPx);
  // Luma of ITU-R BT.709.
  for (let i = 0; i < values.length; i++) values[i] = 0.2126 * (data[4 * i] ?? 0) + 0.7152 * (data[4 * i + 1] ?? 0) + 0.0722 * (data[4 * i + 2] ?? 0);
  return { widthPx, heightPx, values, leftPx, topPx };
}

/** Waits until a frame is ready. @returns false when it does not come, or the signal ends it */
export function frameReady(source: FrameSource, frameIndex: number, signal: AbortSignal): Promise<boolean> {
  const isThere = () => source.draw(frameIndex, () => undefined);
  if (signal.aborted) return Promise.resolve(false);
  if (isThere()) return Promise.resolve(true);
  return new Promise((done) => {
    const finish = (is: boolean) => {
      clearTimeout(timer);
      stopListening();
      signal.removeEventListener("abort", onAbort);
      done(is);
    };
    const onAbort = () => finish(false);
    const timer = setTimeout(onAbort, MOST_WAIT_MS);
    const stopListening = source.onReady((ready) => {
      if (ready === frameIndex) finish(isThere());
    });
    signal.addEventListener("abort", onAbort);
  });
}
