/** How far the smoothing looks to either side at the least, seconds; at low frame rates far enough for five frames. */
export const leastReachSeconds = (framePeriodSeconds: number, wantedSeconds = 0.02): number => Math.max(wantedSeconds, 2.2 * framePeriodSeconds);

/** Each further reach looks twice as far. */
export const WIDENINGS = [1, 2, 4, 10] as const;

/** The farthest that the smoothing looks, seconds. */
export const mostReachSeconds = (framePeriodSeconds: number): number => 10 * leastReachSeconds(framePeriodSeconds);

/** Samples to either side within a reach, when they are evenly spaced. */
export const samplesInReach = (reachSeconds: number, framePeriodSeconds: number): number => Math.floor(reachSeconds / framePeriodSeconds + 1e-6);
