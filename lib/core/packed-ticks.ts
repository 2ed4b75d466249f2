/**
 * Ticks as one run of bytes: the differences of neighbouring ticks, the first from 0, each as a signed LEB128 number
 * (seven bits a byte, lowest first, sign carried on; DWARF 5, 7.6). A frame of an even clip takes two bytes.
 */

/** Differences beyond this are no times of a video; they also could not be kept exactly. */
const MOST = 2 ** 48;

/**
 * Packs ticks, in whole ticks of any time base, in the order given.
 * @throws RangeError for a tick that is not a whole number or lies 2^48 or more from the one before it
 */
export function packTicks(ticks: readonly number[]): Uint8Array<ArrayBuffer> {
  const bytes: number[] = [];
  let before = 0;
  for (const tick of ticks) {
    const difference = tick - before;
    if (!Number.isSafeInteger(tick) || Math.abs(difference) >= MOST) throw new RangeError(`no tick of a video: ${tick}`);
    pushSigned(bytes, difference);
    before = tick;
  }
  return Uint8Array.from(bytes);
}

function pushSigned(bytes: number[], value: number): void {
  for (let rest = value; ; ) {
    const low = ((rest % 128) + 128) % 128;
    rest = Math.floor(rest / 128);
    const isLast = (rest === 0 && low < 64) || (rest === -1 && low >= 64);
    bytes.push(isLast ? low : low + 128);
    if (isLast) return;
  }
}

/** Gives back what `packTicks` packed. @throws RangeError when the bytes end within a number or hold one too large */
export function unpackTicks(packed: Uint8Array): number[] {
  const ticks: number[] = [];
  let tick = 0;
  let value = 0;
  let weight = 1;
  for (const byte of packed) {
    if (weight > MOST) throw new RangeError("a packed tick is too large");
    value += (byte % 128) * weight;
    weight *= 128;
    if (byte >= 128) continue;
    tick += byte >= 64 ? value - weight : value;
    ticks.push(tick);
    value = 0;
    weight = 1;
  }
  if (weight !== 1) throw new RangeError("the packed ticks end within a number");
  return ticks;
}
