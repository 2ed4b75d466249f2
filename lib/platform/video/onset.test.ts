import { describe, expect, test } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { OnsetFinder } from "./onset";

const RATE = 48_000;

function room(seconds: number, cracks: readonly { at: number; loud: number }[]): Int16Array {
  const random = seededRandom("room");
  return Int16Array.from({ length: seconds * RATE }, (_, i) => {
    const t = i / RATE;
    const crack = cracks.reduce((sum, it) => sum + (t >= it.at ? it.loud * Math.exp(-(t - it.at) / 0.01) * random.normal() : 0), 0);
    return Math.max(-32768, Math.min(32767, Math.round(32768 * (0.003 * random.normal() + 0.3 * crack))));
  });
}

function onsetOf(samples: Int16Array, pieces = 1) {
  const finder = new OnsetFinder(RATE);
  const size = Math.ceil(samples.length / pieces);
  for (let i = 0; i < pieces; i++) finder.push(samples.subarray(i * size, (i + 1) * size));
  return finder.result(3);
}

describe("the loudest onset", () => {
  test("a crack in a noisy room is found within two milliseconds", () => {
    expect(Math.abs((onsetOf(room(2, [{ at: 1.2345, loud: 1 }]))?.seconds ?? 0) - 1.2345)).toBeLessThanOrEqual(0.002);
  });

  test("of two the louder counts, whichever comes first", () => {
    expect(onsetOf(room(2, [{ at: 0.5, loud: 0.1 }, { at: 1.5, loud: 1 }]))?.seconds).toBeCloseTo(1.5, 2);
    expect(onsetOf(room(2, [{ at: 0.5, loud: 1 }, { at: 1.5, loud: 0.1 }]))?.seconds).toBeCloseTo(0.5, 2);
  });

  test("all that set in suddenly is remembered in the order of time, an echo once, and the quieter is not the loudest", () => {
    const finder = new OnsetFinder(RATE);
    finder.push(room(3, [{ at: 0.4, loud: 0.2 }, { at: 0.43, loud: 0.15 }, { at: 1, loud: 1 }, { at: 2.2, loud: 0.3 }]));
    expect(finder.all(3).map(({ seconds }) => Math.round(seconds * 100) / 100)).toEqual([0.4, 1, 2.2]);
    expect(finder.result(3)?.seconds).toBeCloseTo(1, 2);
  });

  test("of very many sounds the loudest are remembered", () => {
    const finder = new OnsetFinder(RATE);
    const cracks = Array.from({ length: 40 }, (_, i) => ({ at: 0.1 + i * 0.1, loud: i === 3 ? 1 : 0.05 + 0.001 * i }));
    finder.push(room(5, cracks));
    expect(finder.all(2).length).toBeLessThanOrEqual(24);
    expect(finder.result(3)?.seconds).toBeCloseTo(0.4, 2);
  });

  test("sound that comes in pieces gives the same answer as sound that comes whole", () => {
    const samples = room(1, [{ at: 0.7, loud: 1 }]);
    expect(onsetOf(samples, 997)).toEqual(onsetOf(samples));
  });

  test("a quiet room, and silence that turns into a quiet room, have no onset", () => {
    expect(onsetOf(room(1, []))).toBeNull();
    const late = room(1, []);
    late.fill(0, 0, RATE / 2);
    expect(onsetOf(late)).toBeNull();
  });
});
