/** Where a sound sets in most suddenly. */
export interface Onset {
  readonly seconds: number;
  /** Natural logarithm of its energy over that of the twentieth of a second before it. */
  readonly rise: number;
}

const HOPS_BEFORE = 20;
/** Energy of a millisecond of a quiet room: steps out of perfect silence are not loud. */
const FLOOR = 1e-4;
/** Two cracks nearer than this are one and its echo. */
const APART_SECONDS = 0.06;
/** What rises less is not worth remembering. */
const LEAST_REMEMBERED = 2;
/** At most so many are remembered, the loudest: a noisy cage has no more that anybody would ask about. */
const MOST_REMEMBERED = 24;

/**
 * Finds the onsets in sound that comes piece by piece: the energy of the sound's slope, millisecond by
 * millisecond, against the mean of the twenty before. One channel, 16 bits.
 */
export class OnsetFinder {
  private readonly hop: number;
  private readonly past: number[] = [];
  private onsets: Onset[] = [];
  private lastSample = 0;
  private energy = 0;
  private inHop = 0;
  private hops = 0;

  constructor(
    private readonly samplesPerSecond: number,
    private readonly mostRemembered = MOST_REMEMBERED,
  ) {
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
      if (rise >= LEAST_REMEMBERED) this.remember({ seconds: (this.hops * this.hop) / this.samplesPerSecond, rise });
      this.past.shift();
    }
    this.past.push(level);
    this.energy = 0;
    this.inHop = 0;
    this.hops += 1;
  }

  private remember(onset: Onset): void {
    const last = this.onsets.at(-1);
    if (last && onset.seconds - last.seconds < APART_SECONDS) {
      if (onset.rise > last.rise) this.onsets.splice(-1, 1, onset);
      return;
    }
    this.onsets.push(onset);
    if (this.onsets.length > this.mostRemembered) this.onsets.splice(this.onsets.indexOf(quietest(this.onsets)), 1);
  }

  /** The onsets so far that rose at least so much, in the order of time. */
  all(leastRise: number): readonly Onset[] {
    return this.onsets.filter(({ rise }) => rise >= leastRise);
  }

  /** The loudest onset so far; null when nothing ever rose at least so much. */
  result(leastRise: number): Onset | null {
    return this.all(leastRise).reduce<Onset | null>((best, it) => (best && best.rise >= it.rise ? best : it), null);
  }
}

function quietest(onsets: readonly Onset[]): Onset {
  return onsets.reduce((least, it) => (it.rise < least.rise ? it : least));
}
