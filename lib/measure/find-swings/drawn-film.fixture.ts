import { seededRandom } from "@/lib/core/random";
import type { FilmSigns } from "./find-swings";

/** What a drawn film is made of. Shares nothing with the finder but the shape of its input. */
export interface DrawnFilm {
  readonly signs: FilmSigns;
  /** Contact of each swing, seconds of the film. */
  readonly truth: readonly number[];
}

interface DrawnWith {
  readonly seed: number;
  readonly swings: number;
  /** Spread of the picture's own unrest, as a part of a swing's peak. */
  readonly noise: number;
  /** Share of swings whose crack cannot be heard. */
  readonly deafShare: number;
  /** Cracks of the next cage, a minute. */
  readonly strangeCracksAMinute: number;
  /** Walks through the picture and camera turns, a minute. */
  readonly walksAMinute: number;
  readonly realSecondsPerFilmSecond?: number;
}

const SAMPLES_A_REAL_SECOND = 30;

/**
 * A cage: swings four to eleven seconds apart, each a rise of motion over a quarter of a second that falls as quickly, with the load's small
 * motion before it and the crack 20 to 90 ms after the peak; between them a ball is put up, somebody walks by, another cage is heard, a voice.
 */
export function drawnFilm({ seed, swings, noise, deafShare, strangeCracksAMinute, walksAMinute, realSecondsPerFilmSecond: real = 1 }: DrawnWith): DrawnFilm {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const contacts: number[] = [];
  let at = between(2, 5);
  for (let i = 0; i < swings; i++) {
    contacts.push(at);
    at += between(4, 11);
  }
  const length = at + 1;
  const amounts = Array.from({ length: Math.floor(length * SAMPLES_A_REAL_SECOND) }, () => 0);
  const bump = (centre: number, width: number, height: number) => {
    const [from, to] = [(centre - 5 * width) * SAMPLES_A_REAL_SECOND, (centre + 5 * width) * SAMPLES_A_REAL_SECOND];
    for (let i = Math.max(0, Math.ceil(from)); i < Math.min(amounts.length, to); i++) {
      const t = (i / SAMPLES_A_REAL_SECOND - centre) / width;
      amounts[i] = (amounts[i] ?? 0) + height * Math.exp(-0.5 * t * t);
    }
  };
  const onsets: { seconds: number; rise: number }[] = [];
  for (const contact of contacts) {
    const strong = between(0.6, 1.4);
    bump(contact - between(0.02, 0.09), between(0.1, 0.15), strong);
    bump(contact - between(0.6, 0.9), 0.2, 0.12 * strong);
    // The ball is put up, the hitter steps in.
    bump(contact - between(2.2, 3.2), between(0.4, 0.7), between(0.1, 0.3));
    if (random.uniform() >= deafShare) onsets.push({ seconds: contact, rise: between(3.2, 6.5) });
  }
  const minutes = length / 60;
  for (let i = 0; i < strangeCracksAMinute * minutes; i++) onsets.push({ seconds: between(0, length), rise: between(3, 5) });
  for (let i = 0; i < 8 * minutes; i++) onsets.push({ seconds: between(0, length), rise: between(2, 3) });
  for (let i = 0; i < walksAMinute * minutes; i++) {
    const [start, lasts, height] = [between(0, length), between(1.5, 4), between(0.3, 0.9)];
    for (let t = 0; t < lasts; t += 0.3) bump(start + t, 0.25, height * between(0.6, 1));
  }
  const own = noise * between(0.8, 1.2);
  const unrest = amounts.map((amount) => Math.max(0, amount + own * (1 + 0.35 * random.normal()) + 0.06 * amount * random.normal()));
  return {
    truth: contacts.map((seconds) => seconds / real),
    signs: {
      seconds: length / real,
      realSecondsPerFilmSecond: real,
      onsets: onsets.map(({ seconds, rise }) => ({ seconds: seconds / real, rise })).sort((a, b) => a.seconds - b.seconds),
      motion: { samplesPerSecond: SAMPLES_A_REAL_SECOND * real, amounts: unrest },
    },
  };
}
