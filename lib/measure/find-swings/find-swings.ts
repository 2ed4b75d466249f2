/** Something sudden that is heard: seconds of the film from its first frame, and by how much it rose (natural logarithm of the energy). */
export interface HeardOnset {
  readonly seconds: number;
  readonly rise: number;
}

/** How much a film's picture changes: evenly spaced samples from the first frame on, in any unit, larger is more. */
export interface MotionSeries {
  readonly samplesPerSecond: number;
  readonly amounts: readonly number[];
}

/** What is known of a film; seconds are seconds of the film as it plays. */
export interface FilmSigns {
  readonly seconds: number;
  /** Real seconds that pass for one second of the film: 1/8 for 240 a second that plays at 30. */
  readonly realSecondsPerFilmSecond: number;
  readonly onsets: readonly HeardOnset[];
  /** Null when the picture could not be watched. */
  readonly motion: MotionSeries | null;
}

/** A swing that may be in a film: where contact is likely, and from where to where it is offered to be cut. */
export interface FoundSwing {
  readonly contactSeconds: number;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** What spoke for it: the crack within a burst of motion, or one of the two alone. */
  readonly by: "both" | "motion" | "sound";
  /** How sure, 0 to 1; only to order and to set a limit. */
  readonly score: number;
}

/** Real seconds around contact that hold a swing from the stance to the finish. Common practice, no source. */
const BEFORE_S = 1.8;
const AFTER_S = 1.2;
/** Two swings lie at least so far apart: the bat is brought back and a ball put up. Common practice, no source. */
const APART_S = 1.6;
/** The crack falls near the peak of motion: bodies and bat are fastest shortly before, the follow-through shortly after. */
const CRACK_EARLY_S = 0.3;
const CRACK_LATE_S = 0.35;
/** A burst is over within about a second; what lasts longer is a person who walks or a camera that turns. */
const LONGEST_BURST_S = 1.1;
const SMOOTH_S = 0.08;
/** What counts as still: this part of all samples lies below the level that is taken for rest. */
const REST_SHARE = 0.5;
/**
 * A burst is a swing half the time when it stands out of the rest by this part of the film's strongest brief burst: one hitter's swings are
 * alike, a ball that is put up is not. In spreads of the rest it is never less than the least (in a film without a swing the strongest is
 * chance) and need not be more than the most. With a crack a part of it is enough.
 */
const HALF_SURE_SHARE = 0.56;
const HALF_SURE = { least: 6.5, most: 24 };
const STEEP_SHARE = 0.13;
const CRACK_SHARE = 0.6;
const CRACK_HALF_SURE = 3.4;
/** The spread of the rest is never taken for less than this part of the film's largest motion. */
const LEAST_SPREAD = 0.025;
/** From here on a swing is offered. */
export const LEAST_SCORE = 0.5;

interface Burst {
  readonly peakSeconds: number;
  /** How far it stands out of the rest, in spreads of the rest. */
  readonly height: number;
  readonly lastsSeconds: number;
}

/**
 * The swings that are likely in a film, in the order of time. A burst of motion with a crack in it is a swing; a strong burst alone may be one
 * (a dry swing, a film whose sound is bad); a crack alone only when the picture could not be watched, since the next cage's bat is heard too.
 */
export function findSwings(film: FilmSigns, leastScore = LEAST_SCORE): readonly FoundSwing[] {
  const real = film.realSecondsPerFilmSecond;
  if (!(real > 0)) throw new RangeError("a film's seconds last longer than no time");
  const candidates = film.motion ? ofMotion(film, film.motion) : film.onsets.map(({ seconds, rise }) => ({ contactSeconds: seconds, by: "sound" as const, score: crackScore(rise) }));
  const chosen: { readonly contactSeconds: number; readonly by: FoundSwing["by"]; readonly score: number }[] = [];
  for (const it of [...candidates].sort((a, b) => b.score - a.score)) {
    if (it.score < leastScore) break;
    if (chosen.every((other) => Math.abs(other.contactSeconds - it.contactSeconds) * real >= APART_S)) chosen.push(it);
  }
  chosen.sort((a, b) => a.contactSeconds - b.contactSeconds);
  return chosen.map((it, i) => {
    // Between two neighbours the later one has its load, which takes longer than the earlier one's finish.
    const border = (a: number, b: number) => a + (b - a) * (AFTER_S / (BEFORE_S + AFTER_S));
    const [before, after] = [chosen[i - 1], chosen[i + 1]];
    const from = Math.max(0, it.contactSeconds - BEFORE_S / real, before ? border(before.contactSeconds, it.contactSeconds) : 0);
    const to = Math.min(film.seconds, it.contactSeconds + AFTER_S / real, after ? border(it.contactSeconds, after.contactSeconds) : film.seconds);
    return { ...it, fromSeconds: from, toSeconds: to };
  });
}

function ofMotion({ onsets, realSecondsPerFilmSecond: real }: FilmSigns, motion: MotionSeries) {
  const bursts = burstsOf(motion, real);
  const brief = bursts.filter(({ lastsSeconds }) => lastsSeconds * real <= LONGEST_BURST_S);
  const strongest = Math.max(0, ...brief.map(({ height }) => height));
  const halfSure = Math.min(HALF_SURE.most, Math.max(HALF_SURE.least, strongest * HALF_SURE_SHARE));
  const steep = halfSure * STEEP_SHARE;
  return bursts.map((burst) => {
    const { peakSeconds, height } = burst;
    const near = onsets.filter(({ seconds }) => (seconds - peakSeconds) * real >= -CRACK_EARLY_S && (seconds - peakSeconds) * real <= CRACK_LATE_S);
    const crack = near.reduce<HeardOnset | null>((best, it) => (best && best.rise >= it.rise ? best : it), null);
    const seen = sure((height - halfSure) / steep) * (brief.includes(burst) ? 1 : 0.3);
    // A crack speaks for a burst that is weak or long, but makes none out of nothing.
    const heard = crack ? crackScore(crack.rise) * sure((height - halfSure * CRACK_SHARE) / steep) : 0;
    const score = 1 - (1 - seen) * (1 - heard);
    const isHeard = crack !== null && heard > 0.3;
    return { contactSeconds: isHeard ? crack.seconds : peakSeconds, by: isHeard ? ("both" as const) : ("motion" as const), score };
  });
}

const sure = (x: number) => 1 / (1 + Math.exp(-x));
const crackScore = (rise: number) => sure((rise - CRACK_HALF_SURE) / 0.35);

/** The bursts of a motion series: its peaks, none within half a second of a higher one, each against what is rest in this film. */
function burstsOf({ samplesPerSecond, amounts }: MotionSeries, real: number): readonly Burst[] {
  const level = smoothed(amounts.map((amount) => Math.sqrt(Math.max(0, amount))), Math.max(1, Math.round((SMOOTH_S / real) * samplesPerSecond)));
  const sorted = [...level].sort((a, b) => a - b);
  const rest = sorted[Math.floor(sorted.length * REST_SHARE)] ?? 0;
  // The spread of what lies below rest: swings and walks do not widen it.
  const below = sorted[Math.floor(sorted.length * REST_SHARE * 0.32)] ?? 0;
  // In a film that is still as a stone everything stands out: a part of its largest motion is rest all the same.
  const spread = Math.max(rest - below, ((sorted.at(-1) ?? 0) - rest) * LEAST_SPREAD, 1e-9);
  const reach = Math.round((0.5 / real) * samplesPerSecond);
  const bursts: Burst[] = [];
  for (let i = 0; i < level.length; i++) {
    const here = level[i] ?? 0;
    if (here <= rest + 2 * spread || !isHighest(level, i, reach)) continue;
    const half = rest + (here - rest) / 2;
    let [from, to] = [i, i];
    while (from > 0 && (level[from - 1] ?? 0) > half) from -= 1;
    while (to < level.length - 1 && (level[to + 1] ?? 0) > half) to += 1;
    bursts.push({ peakSeconds: i / samplesPerSecond, height: (here - rest) / spread, lastsSeconds: (to - from + 1) / samplesPerSecond });
  }
  return bursts;
}

function isHighest(level: readonly number[], at: number, reach: number): boolean {
  const here = level[at] ?? 0;
  for (let i = Math.max(0, at - reach); i <= Math.min(level.length - 1, at + reach); i++) if (i !== at && ((level[i] ?? 0) > here || ((level[i] ?? 0) === here && i < at))) return false;
  return true;
}

/** Running mean over an odd number of samples. */
function smoothed(values: readonly number[], width: number): readonly number[] {
  const half = width >> 1;
  const sums = [0];
  for (const value of values) sums.push((sums.at(-1) ?? 0) + value);
  return values.map((_, i) => {
    const [from, to] = [Math.max(0, i - half), Math.min(values.length, i + half + 1)];
    return ((sums[to] ?? 0) - (sums[from] ?? 0)) / (to - from);
  });
}
