import { settings } from "../settings";
import { listen, SAMPLES_PER_SECOND } from "./hear-contact";
import { firstTimeOf } from "./make-pictures";
import { OnsetFinder, type Onset } from "./onset";
import { inputOptions, runTool } from "./run-tool";

/** What is heard and seen in a film, in seconds from its first frame. */
export interface WatchedFilm {
  readonly onsets: readonly Onset[];
  /** How much the picture changes from sample to sample: mean difference of grey, 0 to 255. */
  readonly motion: { readonly samplesPerSecond: number; readonly amounts: readonly number[] };
}

const [WIDTH, HEIGHT] = [64, 36];
const SAMPLES_A_REAL_SECOND = 30;
/** A long film of a busy cage has this many sounds at most that could be a bat. */
const MOST_ONSETS = 300;
const LEAST_RISE = 2.5;

/**
 * Watches a stepping copy small and grey, thirty times a real second, and listens for sudden sounds.
 * @param realSecondsPerFileSecond 1/8 for 240 a second that plays at 30: then fewer of its frames are looked at
 */
export async function watchFilm(steppingPath: string, realSecondsPerFileSecond: number): Promise<WatchedFilm> {
  const samplesPerSecond = SAMPLES_A_REAL_SECOND * realSecondsPerFileSecond;
  const amounts: number[] = [];
  let before: Buffer | null = null;
  let rest: Buffer = Buffer.alloc(0);
  const onOutput = (bytes: Buffer) => {
    rest = rest.length > 0 ? Buffer.concat([rest, bytes]) : bytes;
    while (rest.length >= WIDTH * HEIGHT) {
      const picture = rest.subarray(0, WIDTH * HEIGHT);
      rest = rest.subarray(WIDTH * HEIGHT);
      amounts.push(before ? differenceOf(before, picture) : 0);
      before = picture;
    }
  };
  const args = [
    "-nostdin", "-v", "error", "-threads", "2", ...inputOptions(steppingPath), "-map", "0:v:0", "-vf", `fps=${samplesPerSecond},scale=${WIDTH}:${HEIGHT}:flags=area,format=gray`,
    "-f", "rawvideo", "pipe:1",
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 10 * 60_000, outputBytes: 200_000_000, onOutput });
  return { onsets: await hear(steppingPath), motion: { samplesPerSecond, amounts } };
}

function differenceOf(a: Buffer, b: Buffer): number {
  let sum = 0;
  for (let i = 0; i < b.length; i++) sum += Math.abs((a[i] ?? 0) - (b[i] ?? 0));
  return sum / b.length;
}

/** Sudden sounds from the first frame on; none where there is no sound or it cannot be opened. */
async function hear(path: string): Promise<readonly Onset[]> {
  const finder = new OnsetFinder(SAMPLES_PER_SECOND, MOST_ONSETS);
  if (!(await listen(path, finder))) return [];
  const start = await firstTimeOf(path);
  return finder.all(LEAST_RISE).map(({ seconds, rise }) => ({ seconds: seconds - start, rise })).filter(({ seconds }) => seconds >= 0);
}
