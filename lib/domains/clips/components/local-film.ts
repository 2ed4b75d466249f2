import type { FrameSource } from "./frame-source-type";
import { openFilm } from "./stepping-copy";
import { ToldProblem } from "./told-problem";
import { VideoElementFrames } from "./video-element-frames";
import { canDecode, WebCodecsFrames } from "./webcodecs-frames";

/** A film that is still only on this device, opened to be stepped. */
export interface LocalFilm {
  readonly source: FrameSource;
  /** File time of each frame from the first one. */
  readonly seconds: readonly number[];
  /** Size of the upright picture. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** How the source's pictures must be turned to stand upright, clockwise. */
  readonly turnDeg: 0 | 90 | 180 | 270;
}

export const notHere = "This browser cannot show this film before it is sent. It can be sent all the same and stepped then.";

/**
 * Opens a chosen file where it is, without sending anything.
 * @throws ToldProblem when this browser cannot show it
 */
export async function openLocalFilm(file: Blob): Promise<LocalFilm> {
  const film = await openFilm(file).catch((problem: unknown) => {
    throw new ToldProblem(notHere, { cause: problem });
  });
  const { frames, turnDeg, widthPx, heightPx } = film;
  const microseconds = frames.map((it) => it.microseconds);
  const seconds = microseconds.map((it) => (it - (microseconds[0] ?? 0)) / 1e6);
  if (await canDecode(film.config)) return { source: new WebCodecsFrames(film), seconds, widthPx, heightPx, turnDeg };
  film.close();
  const source = await VideoElementFrames.open(file, microseconds).catch((problem: unknown) => {
    throw new ToldProblem(notHere, { cause: problem });
  });
  return { source, seconds, widthPx, heightPx, turnDeg: 0 };
}
