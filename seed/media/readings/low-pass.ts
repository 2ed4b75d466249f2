/** Seconds by which a row is turned over at its ends before filtering, so that the filter has settled inside it. */
const OVERHANG_SECONDS = 0.25;

/**
 * A row of evenly spaced values through a second-order low-pass once forward and once backward, no phase shift; together
 * they let 0.7071 through at `cutOffHz`. The ends are carried on turned over (odd extension).
 * Source: Butterworth's filter by the bilinear transform; Winter, Biomechanics and Motor Control of Human Movement.
 */
export function lowPassed(values: readonly number[], stepSeconds: number, cutOffHz: number): number[] {
  const eachWayHz = cutOffHz / (Math.SQRT2 - 1) ** 0.25;
  const k = Math.tan(Math.PI * eachWayHz * stepSeconds);
  const scale = 1 / (1 + Math.SQRT2 * k + k * k);
  const gain = k * k * scale;
  const back = [2 * (k * k - 1) * scale, (1 - Math.SQRT2 * k + k * k) * scale] as const;
  const over = Math.min(values.length - 1, Math.ceil(OVERHANG_SECONDS / stepSeconds));
  const at = (i: number) => values[i] ?? NaN;
  const last = values.length - 1;
  const row = [
    ...Array.from({ length: over }, (_, i) => 2 * at(0) - at(over - i)),
    ...values,
    ...Array.from({ length: over }, (_, i) => 2 * at(last) - at(last - 1 - i)),
  ];
  const once = (input: readonly number[]): number[] => {
    const first = input[0] ?? NaN;
    let [x1, x2, y1, y2] = [first, first, first, first];
    return input.map((x) => {
      const y = gain * (x + 2 * x1 + x2) - back[0] * y1 - back[1] * y2;
      [x2, x1, y2, y1] = [x1, x, y1, y];
      return y;
    });
  };
  return once(once(row).reverse()).reverse().slice(over, over + values.length);
}
