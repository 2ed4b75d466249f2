/**
 * SD of a coordinate after the two-pass Butterworth filter, in the unit of `sd`: sd * sqrt(2 fc / fs). Right within 2 %
 * of the filter's own white-noise gain for 10 to 20 Hz at 60 to 240 samples a second.
 * Source: conventions `noise.afterFilter`.
 * @param sd SD of one coordinate on one frame, independent between frames
 * @throws RangeError for a negative SD or a cut-off that is not between 0 and half the rate
 */
export function filteredPointSd(sd: number, cutoffHz: number, rateHz: number): number {
  check(sd, cutoffHz, rateHz);
  return sd * Math.sqrt((2 * cutoffHz) / rateHz);
}

/**
 * SD of the speed along one axis after the same filter, by central differences: sd * 2 pi fc * sqrt(2 fc / (3 fs)), per
 * second. The true value is 0.95 to 1.24 times this for 10 to 20 Hz at 60 to 240 samples a second, but 0.62 times for
 * 20 Hz at 60, where central differences see little of what is left.
 * Source: conventions `noise.afterFilter`.
 * @throws RangeError for a negative SD or a cut-off that is not between 0 and half the rate
 */
export function filteredSpeedSd(sd: number, cutoffHz: number, rateHz: number): number {
  check(sd, cutoffHz, rateHz);
  return sd * 2 * Math.PI * cutoffHz * Math.sqrt((2 * cutoffHz) / (3 * rateHz));
}

function check(sd: number, cutoffHz: number, rateHz: number): void {
  if (sd < 0) throw new RangeError(`an SD must be 0 or more, not ${sd}`);
  if (!(cutoffHz > 0 && cutoffHz < rateHz / 2)) throw new RangeError(`the cut-off must lie between 0 and ${rateHz / 2} Hz, not ${cutoffHz}`);
}
