/** Pace is judged after so long, and called slow below this part of what was asked. */
export const judgeSeconds = 0.4;
export const slowPart = 0.85;
/** A page that was put aside goes on where it stood. */
export const longestTurnSeconds = 0.1;

/**
 * Where a clock of real seconds stands after a turn at a part of real time: no further than the pictures allow, and never back.
 * @param furthest seconds up to which the pictures let it run
 */
export function clockOn(seconds: number, passedSeconds: number, rate: number, furthest: number): number {
  return Math.max(seconds, Math.min(seconds + Math.min(longestTurnSeconds, passedSeconds) * rate, furthest));
}
