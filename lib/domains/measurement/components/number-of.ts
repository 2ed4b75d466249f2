import type { Reading } from "@/lib/measure/reading";
import { numberWords, readingWords } from "@/lib/measure/reading-words";

/** A half more than the other counts as a lopsided doubt. */
const LOPSIDED = 1.5;

/**
 * A reading's number with its doubt and no more digits than that bears: "12° ± 3", the words of a limit beyond which only
 * "or more" is known, the word that stands for it, or "12° ± 3, two times in three from 11° to 17°" where the doubt leans to one side. Null without a value.
 */
export function numberOf(reading: Reading): string | null {
  if (reading.censoredWords !== null) return reading.censoredWords;
  if (reading.word) return reading.word;
  const { number } = readingWords(reading);
  const { quantiles, sd, unit } = reading;
  if (number === null || !quantiles || sd === null || !(sd > 0)) return number;
  const [below, above] = [quantiles.p50 - quantiles.p16, quantiles.p84 - quantiles.p50];
  if (Math.max(below, above) < LOPSIDED * Math.min(below, above)) return number;
  const bare = (value: number) => numberWords(value, sd, unit).split(" ± ")[0] ?? "";
  return `${number}, two times in three from ${bare(quantiles.p16)} to ${bare(quantiles.p84)}`;
}
