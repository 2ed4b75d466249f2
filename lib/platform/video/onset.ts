/** Where a sound sets in most suddenly. */
export interface Onset {
  readonly seconds: number;
  /** Natural logarithm of its energy over that of the twentieth of a second before it. */
  readonly rise: number;
}

const HOPS_BEFORE = 20;
/** Energy of a millisecond of a quiet room: steps out of perfect silence are not loud. */
const FLOOR = 1e-4;

/**
 * Finds the loudest onset in sound that comes piece by piece: the energy of the sound's slope, millisecond by
 * millisecond, against the mean of the twenty before. One channel, 16 bits.
 */
export class OnsetFinder {
  private readonly hop: number;
  private readonly past: number[] = [];
  private best: Onset | null = null;
  private lastSample = 0;
  private energy = 0;
  private inHop = 0;
  private hops = 0;

  constructor(private readonly samplesPerSecond: number) {
    if (!(samplesPerSecond >= 8000)) throw new RangeError("sound needs at least 8000 samples a second");
    this.hop = Math.round(samplesPerSecond / 1000);
  }

  push(samples: Int16Array): void {
    for (const sample of samples) {
      const slope = (sample - this.lastSample) / 32768;
      this.lastSample = sample;
      this.energy += slope * slope;
      if (++this.inHop === this.hop) this.closeHop();
    }
  }

  private closeHop(): void {
    const level = Math.log(FLOOR + this.energy);
    if (this.past.length === HOPS_BEFORE) {
      const rise = level - this.past.reduce((sum, it) => sum + it, 0) / HOPS_BEFORE;
      if (rise > (this.best?.rise ?? 0)) this.best = { seconds: (this.hops * this.hop) / this.samplesPerSecond, rise };
      this.past.shift();
    }
    this.past.push(level);
    this.energy = 0;
    this.inHop = 0;
    this.hops += 1;
  }

  /** The loudest onset so far; null when nothing ever rose at least so much. */
  result(leastRise: number): Onset | null {
    return this.best && this.best.rise >= leastRise ? this.best : null;
  }
}
