import type { NamedReading, Reading } from "@/lib/measure/reading";

/** Short signs of the units. */
const UNIT_SIGNS: Readonly<Record<string, string>> = {
  degrees: "°", "seconds (captured time)": " s", seconds: " s", "seconds from contact": " s",
  "torso lengths": " torso lengths", "foot lengths": " foot lengths", "bat lengths": " bat lengths",
};

const VERDICT_WORDS = { fine: "Fine", watch: "Watch", "talk-about": "Talk about it", "cannot-tell": "Cannot tell" } as const;

/** Words for a reading: the words come first, the number only with the digits that its doubt bears. */
export interface ReadingWords {
  /** "Fine", "Talk about it, clear", "Cannot read it", "Not sure enough to judge". */
  readonly words: string;
  /** "0.19 s ± 0.01", "12° ± 3", or the word that stands for it; null without a value. */
  readonly number: string | null;
  /** Why it is grey or missing, and what to keep in mind; sentences, most important first. */
  readonly why: readonly string[];
}

const TIMING_LEFT_OUT = "The doubt leaves out when exactly its moments were: place the points on the frames beside them too";

/** Words for a reading; the camera's part is counted in the shown doubt. */
export function readingWords(reading: Reading): ReadingWords {
  const why = reading.reasons.map(({ say }) => capital(say));
  if (reading.doubt?.time === null) why.push(TIMING_LEFT_OUT);
  if (reading.value === null || reading.sd === null) return { words: "Cannot read it", number: null, why };
  const number = reading.word ?? numberWords(reading.value, Math.hypot(reading.sd, reading.sdCamera), reading.unit);
  if (reading.isGrey) return { words: "Not sure enough to judge", number, why };
  if (reading.verdict === null) return { words: "Read, without a verdict", number, why };
  const size = reading.size && reading.verdict !== "fine" && reading.verdict !== "cannot-tell" ? `, ${reading.size}` : "";
  return { words: `${VERDICT_WORDS[reading.verdict]}${size}`, number, why };
}

/** The number of a named value, or its word; null when it cannot be told. */
export function namedWords(named: NamedReading): string | null {
  if (named.word !== null) return named.word;
  return named.value === null || named.sd === null ? null : numberWords(named.value, named.sd, named.unit);
}

/**
 * "0.19 s ± 0.01": the doubt with one digit (rounded up where rounding would take off more than a fifth), the value to
 * the same place. @throws RangeError for numbers that are not finite or a doubt below 0
 */
export function numberWords(value: number, sd: number, unit: string): string {
  if (!Number.isFinite(value) || !(sd >= 0 && sd < Infinity)) throw new RangeError("a number and its doubt must be finite");
  const sign = UNIT_SIGNS[unit] ?? (unit ? ` ${unit}` : "");
  const decimals = decimalsOf(sd);
  if (decimals === null) return `${spoken(value, 2)}${sign}`;
  return `${spoken(value, decimals)}${sign} ± ${spoken(oneDigit(sd), decimals)}`;
}

/** Decimal places that an SD bears; negative = tens. Null for no doubt at all. */
function decimalsOf(sd: number): number | null {
  return sd > 0 ? -Math.floor(Math.log10(oneDigit(sd)) + 1e-9) : null;
}

/** An SD with one digit: the nearest, or the next above where that would say a fifth too little. */
function oneDigit(sd: number): number {
  const unit = 10 ** Math.floor(Math.log10(sd) + 1e-12);
  const nearest = Math.round(sd / unit) * unit;
  return nearest < 0.8 * sd ? Math.ceil(sd / unit) * unit : nearest;
}

function spoken(value: number, decimals: number): string {
  const scale = 10 ** Math.min(decimals, 0);
  const rounded = decimals < 0 ? Math.round(value * scale) / scale : value;
  const text = rounded.toFixed(Math.max(0, Math.min(20, decimals)));
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
