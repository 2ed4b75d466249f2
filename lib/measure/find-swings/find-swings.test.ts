import { describe, expect, test, vi } from "vitest";
import { drawnFilm } from "./drawn-film.fixture";
import { findSwings, LEAST_SCORE, type FoundSwing } from "./find-swings";

// Hundreds of drawn films: seconds on a busy machine.
vi.setConfig({ testTimeout: 30_000 });
const NEAR_S = 0.25;

/** Swings found and missed, and offers that are none, over many drawn films. */
function tally(given: { readonly noise: number; readonly deafShare?: number; readonly strange?: number; readonly walks?: number; readonly real?: number }, leastScore = LEAST_SCORE) {
  let [found, missed, wrong, minutes] = [0, 0, 0, 0];
  const errors: number[] = [];
  for (let seed = 1; seed <= 60; seed++) {
    const { noise, deafShare = 0, strange = 0, walks = 0, real = 1 } = given;
    const { signs, truth } = drawnFilm({ seed: seed * 7919, swings: 1 + (seed % 9), noise, deafShare, strangeCracksAMinute: strange, walksAMinute: walks, realSecondsPerFilmSecond: real });
    const offers = new Set(findSwings(signs, leastScore));
    minutes += (signs.seconds * real) / 60;
    for (const contact of truth) {
      const hit = [...offers].find((it) => Math.abs(it.contactSeconds - contact) * real <= NEAR_S);
      if (hit) {
        errors.push((hit.contactSeconds - contact) * real);
        offers.delete(hit);
        found++;
      } else missed++;
    }
    wrong += offers.size;
  }
  errors.sort((a, b) => Math.abs(a) - Math.abs(b));
  return { recall: found / (found + missed), precision: found / (found + wrong), wrongAMinute: wrong / minutes, errorP95: Math.abs(errors[Math.floor(errors.length * 0.95)] ?? NaN), swings: found + missed };
}

describe("swings found in a film", () => {
  test.each([
    ["a quiet cage with good sound", { noise: 0.03 }, 0.99, 0.99, 0.02],
    ["a busy cage: walks by, another cage's bat", { noise: 0.06, strange: 6, walks: 2 }, 0.95, 0.9, 0.12],
    ["without any sound that helps", { noise: 0.05, deafShare: 1 }, 0.93, 0.93, 0.12],
    ["an unsteady hand and half the cracks unheard", { noise: 0.15, deafShare: 0.5, strange: 3, walks: 1 }, 0.85, 0.85, 0.12],
    ["filmed at 240 and playing at 30", { noise: 0.05, strange: 3, walks: 1, real: 1 / 8 }, 0.95, 0.92, 0.12],
  ] as const)("%s", (name, given, recall, precision, error) => {
    const seen = tally(given);
    console.info(`${name}: recall ${seen.recall.toFixed(3)}, precision ${seen.precision.toFixed(3)}, ${seen.wrongAMinute.toFixed(2)} wrong a minute, contact within ${seen.errorP95.toFixed(3)} s in 95 % (${seen.swings} swings)`);
    expect(seen.recall).toBeGreaterThanOrEqual(recall);
    expect(seen.precision).toBeGreaterThanOrEqual(precision);
    expect(seen.errorP95).toBeLessThanOrEqual(error);
  });

  test("a higher limit never offers more, and the limit in force lies where both kinds of mistake are rare", () => {
    const busy = { noise: 0.08, deafShare: 0.3, strange: 6, walks: 2 };
    const curve = [0.1, 0.3, 0.5, 0.7, 0.9].map((limit) => ({ limit, ...tally(busy, limit) }));
    for (const it of curve) console.info(`limit ${it.limit}: recall ${it.recall.toFixed(3)}, ${it.wrongAMinute.toFixed(2)} wrong a minute`);
    curve.slice(1).forEach((it, i) => {
      expect(it.wrongAMinute).toBeLessThanOrEqual((curve[i]?.wrongAMinute ?? Infinity) + 1e-9);
      expect(it.recall).toBeLessThanOrEqual((curve[i]?.recall ?? 1) + 1e-9);
    });
    expect(curve[2]?.recall).toBeGreaterThan(0.9);
    expect(curve[2]?.wrongAMinute).toBeLessThan(1);
  });

  test("offers lie inside the film, in order, do not overlap, and each holds its contact", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { signs } = drawnFilm({ seed, swings: 8, noise: 0.1, deafShare: 0.3, strangeCracksAMinute: 10, walksAMinute: 3 });
      let before: FoundSwing | null = null;
      for (const it of findSwings(signs)) {
        expect(it.fromSeconds).toBeGreaterThanOrEqual(before?.toSeconds ?? 0);
        expect(it.toSeconds).toBeLessThanOrEqual(signs.seconds);
        expect(it.contactSeconds).toBeGreaterThanOrEqual(it.fromSeconds);
        expect(it.contactSeconds).toBeLessThanOrEqual(it.toSeconds);
        before = it;
      }
    }
  });

  test("in a film that is else as still as a stone, a small stir is not taken for a swing", () => {
    const amounts: number[] = Array.from({ length: 360 }, (_, i) => (i % 8 === 0 ? 0.004 : 0));
    for (const [at, height] of [[20, 0.3], [90, 8], [240, 7]] as const) for (let i = -6; i <= 6; i++) amounts[at + i] = height * Math.exp(-((i / 3) ** 2));
    expect(findSwings({ seconds: 12, realSecondsPerFilmSecond: 1, onsets: [], motion: { samplesPerSecond: 30, amounts } }).map(({ contactSeconds }) => contactSeconds)).toEqual([3, 8]);
  });

  test("a film in which nothing moves offers nothing, whatever is heard; one that could not be watched offers what is heard", () => {
    const onsets = [{ seconds: 3, rise: 6 }, { seconds: 3.4, rise: 5 }, { seconds: 7, rise: 2.2 }];
    const film = { seconds: 10, realSecondsPerFilmSecond: 1, onsets };
    expect(findSwings({ ...film, motion: { samplesPerSecond: 30, amounts: Array.from({ length: 300 }, () => 1) } })).toEqual([]);
    expect(findSwings({ ...film, motion: null })).toMatchObject([{ contactSeconds: 3, by: "sound" }]);
    expect(findSwings({ ...film, onsets: [], motion: null })).toEqual([]);
  });
});
