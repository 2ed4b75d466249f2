import type { BetweenFrame } from "@/lib/measure/between/between-frames";
import type { Track } from "@/lib/measure/tracks";

/** Whether some of a track's places were followed from placed ones. */
export function isFollowed(track: Track | undefined): boolean {
  return (track?.followed?.size ?? 0) > 0;
}

/**
 * The frames on which a point was followed from placed ones, each with the nearest frame on either side on which it was placed by hand:
 * what those are off is in it too, by how near it lies. Without a hand-placed frame on one side the other's noise is in it whole.
 */
export function followedFrames({ frames, followed }: Track, seconds: ArrayLike<number>): readonly BetweenFrame[] {
  if (!followed || followed.size === 0) return [];
  const found: BetweenFrame[] = [];
  const byHand = frames.filter((frame) => !followed.has(frame));
  const timeOf = (frame: number) => seconds[frame] ?? NaN;
  let next = 0;
  for (const frame of frames) {
    while (next < byHand.length && (byHand[next] ?? Infinity) < frame) next++;
    if (!followed.has(frame)) continue;
    const [before, after] = [byHand[next - 1], byHand[next]];
    const knots = [before, after].filter((knot) => knot !== undefined);
    const share = before === undefined || after === undefined ? 1 : (timeOf(after) - timeOf(frame)) / (timeOf(after) - timeOf(before));
    found.push({ frame, knots, left: 0, weights: knots.length === 2 ? [share, 1 - share] : knots.map(() => 1), isFollowed: true });
  }
  return found;
}

/**
 * SD in pixels of one coordinate of a point on a frame where it is placed, suggested or followed.
 * @param noise of a point that is placed, or suggested
 */
export function placeSdPx(track: Track, frame: number, seconds: ArrayLike<number>, noise: (isSuggested: boolean) => number): number {
  const own = track.followed?.get(frame);
  if (own === undefined) return noise(track.suggestedFrames.has(frame));
  const weights = followedFrames(track, seconds).find((it) => it.frame === frame)?.weights ?? [];
  return Math.hypot(own, noise(false) * (weights.length > 0 ? Math.hypot(...weights) : 1));
}
