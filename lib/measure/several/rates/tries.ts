/** k of n tries went well: whole numbers, 0 <= k <= n. */
export interface Tries {
  readonly k: number;
  readonly n: number;
}

/** @throws RangeError unless both are whole and 0 <= k <= n */
export function checkTries({ k, n }: Tries): void {
  if (!(Number.isInteger(k) && Number.isInteger(n) && k >= 0 && k <= n)) throw new RangeError(`${k} of ${n} cannot be`);
}

/** An interval of a share, both ends within 0 to 1. */
export interface ShareInterval {
  readonly low: number;
  readonly high: number;
}
