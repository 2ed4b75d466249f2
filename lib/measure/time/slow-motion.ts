import type { SwingInput } from "@/lib/measure/clip-input";

/** Stretches of a swing that are known well enough to tell a wrong clock. */
export type TellingId = "plant-to-contact-time" | "launch-to-contact-time";

/** What is known of a stretch of a swing as real time, seconds. */
export interface TellingInterval {
  readonly id: TellingId;
  /** "Landing to contact". */
  readonly name: string;
  /** Shorter or longer than this no swing is, in real time. */
  readonly shortestSeconds: number;
  readonly longestSeconds: number;
  /** Middle (geometric) of what is usual. */
  readonly usualSeconds: number;
  /** Tasks that say nothing: there a hitter may wait after landing. */
  readonly saysNothingOn: readonly string[];
}

/** How far beyond the bands at which one talks about it a time must lie to be impossible: half as long or short again. */
export const IMPOSSIBLE_MARGIN = 1.5;

/**
 * The bands of the two stretches, seconds. Source: the library's checkpoints of the same names, `act` of adults and of
 * players under 13 together; where `act` has no lower limit, the lower limit of `ok`. Landing to contact is common
 * practice, launch to contact published (college softball in games, 0.208 s, SD 0.042).
 */
export const TELLING_BANDS: Readonly<Record<TellingId, { readonly act: readonly [number, number]; readonly ok: readonly [number, number] }>> = {
  "plant-to-contact-time": { act: [0.11, 0.34], ok: [0.14, 0.28] },
  "launch-to-contact-time": { act: [0.12, 0.29], ok: [0.12, 0.25] },
};

const NAMES: Readonly<Record<TellingId, string>> = { "plant-to-contact-time": "Landing to contact", "launch-to-contact-time": "Launch to contact" };
const NOTHING_ON: Readonly<Record<TellingId, readonly string[]>> = { "plant-to-contact-time": ["tee", "dry"], "launch-to-contact-time": [] };

/** The stretches with the limits beyond which they are impossible. */
export const TELLING_INTERVALS: readonly TellingInterval[] = (Object.keys(TELLING_BANDS) as TellingId[]).map((id) => {
  const { act, ok } = TELLING_BANDS[id];
  return {
    id, name: NAMES[id], saysNothingOn: NOTHING_ON[id],
    shortestSeconds: act[0] / IMPOSSIBLE_MARGIN, longestSeconds: act[1] * IMPOSSIBLE_MARGIN, usualSeconds: Math.sqrt(ok[0] * ok[1]),
  };
});

/** Phones slow down by these factors: 240 or 120 frames a second kept at 30 or 60. 1 = the file plays at real speed. */
export const SLOW_FACTORS = [1, 2, 4, 8] as const;
export type SlowFactor = (typeof SLOW_FACTORS)[number];

/** The fastest and slowest that a phone films, frames a second; files say 239.7 and 23.98. */
const FILMED_FPS = { least: 23, most: 250 } as const;

/** A stretch as the clip's present clock has it. */
export interface TimedStretch {
  readonly id: TellingId;
  readonly seconds: number;
  readonly sdSeconds: number;
}

/** The present clock of a clip. */
export interface PresentClock {
  /** Real seconds that are taken to pass for one second of the file. */
  readonly realSecondsPerFileSecond: number;
  /** Frames a second at which the file plays; null = not known. */
  readonly fileFps: number | null;
  readonly task: SwingInput["task"];
}

/** A clock that cannot be right, and the likeliest one. */
export interface LikelySlowMotion {
  /** The stretch that no swing takes so long or so short. */
  readonly stretch: TimedStretch;
  /** How many times slower than life the file most likely plays; 1 = as life. */
  readonly factor: SlowFactor;
  readonly realSecondsPerFileSecond: number;
  /** What the stretch would be then, seconds. */
  readonly secondsThen: number;
  /** Frames a second at which it was filmed then; null when the file's own rate is not known. */
  readonly filmedFps: number | null;
  /** To ask the coach. */
  readonly question: string;
}

/**
 * Whether a clip's clock cannot be right, and which slow motion explains it best: among the factors that phones make, that
 * which brings every stretch into what a swing can take and nearest (as a ratio) to the usual. Null when all stretches are
 * possible as they are, within two of their SDs, or when nothing explains them.
 * @throws RangeError for a clock that is not above 0
 */
export function likelySlowMotion(stretches: readonly TimedStretch[], clock: PresentClock, known: readonly TellingInterval[] = TELLING_INTERVALS): LikelySlowMotion | null {
  const { realSecondsPerFileSecond: present, fileFps, task } = clock;
  if (!(present > 0 && present < Infinity)) throw new RangeError("real seconds per second of the file must be above 0");
  const told = stretches.flatMap((stretch) => {
    const interval = known.find(({ id }) => id === stretch.id);
    const isTold = interval && stretch.seconds > 0 && stretch.seconds < Infinity && !interval.saysNothingOn.includes(task ?? "");
    return isTold ? [{ stretch, interval }] : [];
  });
  const impossible = told.find(({ stretch: { seconds, sdSeconds }, interval }) => {
    const slack = 2 * (sdSeconds >= 0 ? sdSeconds : 0);
    return seconds - slack > interval.longestSeconds || seconds + slack < interval.shortestSeconds;
  });
  if (!impossible) return null;
  let best: { factor: SlowFactor; miss: number } | null = null;
  for (const factor of SLOW_FACTORS) {
    const times = 1 / factor / present;
    if (Math.abs(times - 1) < 0.05 || !isFilmable(fileFps, factor)) continue;
    const then = told.map(({ stretch, interval }) => ({ seconds: stretch.seconds * times, interval }));
    if (then.some(({ seconds, interval }) => seconds > interval.longestSeconds || seconds < interval.shortestSeconds)) continue;
    const miss = then.reduce((sum, { seconds, interval }) => sum + Math.log(seconds / interval.usualSeconds) ** 2, 0);
    if (!best || miss < best.miss) best = { factor, miss };
  }
  if (!best) return null;
  const { stretch, interval } = impossible;
  const { factor } = best;
  const filmedFps = fileFps === null ? null : Math.round(fileFps * factor);
  return {
    stretch, factor, realSecondsPerFileSecond: 1 / factor, secondsThen: stretch.seconds / factor / present, filmedFps,
    question: `${interval.name} would be ${stretch.seconds.toFixed(2)} s. ${askOf(factor, filmedFps)}`,
  };
}

function isFilmable(fileFps: number | null, factor: SlowFactor): boolean {
  const filmed = (fileFps ?? NaN) * factor;
  return Number.isNaN(filmed) || (filmed >= FILMED_FPS.least && filmed <= FILMED_FPS.most);
}

function askOf(factor: SlowFactor, filmedFps: number | null): string {
  if (factor === 1) return "Does the file play at real speed?";
  return filmedFps === null ? `Was this slowed ${factor} times?` : `Was this filmed at ${filmedFps} and slowed ${factor} times?`;
}
