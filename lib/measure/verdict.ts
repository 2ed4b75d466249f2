import type { Band, CensorLimit, CheckpointDefinition, FlightBand, ValueWord } from "@/lib/measure/checkpoint-definition";
import type { SwingInput } from "@/lib/measure/clip-input";
import type { Estimate } from "@/lib/measure/estimate-parts";
import { normalBelow } from "@/lib/measure/normal";
import { normalDraws } from "@/lib/measure/normal-draws";
import type { BandChances, DeviationSize, Verdict } from "@/lib/measure/reading";
import type { ReadingRules } from "@/lib/measure/reading-rules";

/**
 * The band in force: that of this swing's own flight where the checkpoint has one (none while the flight is not known);
 * else the youth band for players under the youth age where there is one. Unknown age: the adult band.
 */
export function bandInForce(
  definition: Pick<CheckpointDefinition, "band" | "bandYouth" | "bandOfFlight">, { ageYears, events }: Pick<SwingInput, "ageYears" | "events">, rules: ReadingRules,
): Band | null {
  if (definition.bandOfFlight) return bandOfFlight(definition.bandOfFlight, (events.contact?.seconds ?? NaN) - (events.release?.seconds ?? NaN));
  const isYouth = ageYears !== null && ageYears < rules.youthUnderAgeYears;
  return isYouth && definition.bandYouth ? definition.bandYouth : definition.band;
}

/** limit = 1 - seconds / flight; null when the flight is not above 0 seconds. */
function bandOfFlight({ okSeconds, actSeconds }: FlightBand, flightSeconds: number): Band | null {
  if (!(flightSeconds > 0)) return null;
  const limits = ([early, late]: readonly [number, number]) => [1 - early / flightSeconds, 1 - late / flightSeconds] as const;
  return { ok: limits(okSeconds), act: limits(actSeconds) };
}

/** The word that stands for a value, by the first of the words that fits; null = the number itself is said. */
export function valueWord(words: readonly ValueWord[] | undefined, value: number, band: Band | null): string | null {
  const limit = (side: number | string | undefined) => (side === "ok low" ? (band?.ok[0] ?? NaN) : side === "ok high" ? (band?.ok[1] ?? NaN) : Number(side ?? NaN));
  const isInside = band !== null && value >= (band.ok[0] ?? -Infinity) && value <= (band.ok[1] ?? Infinity);
  return words?.find(({ below, above, inside }) => value < limit(below) || value > limit(above) || (inside === "ok" && isInside))?.say ?? null;
}

/** Width of the `ok` band; infinite when one side has no limit. */
export function okWidth(band: Band): number {
  const [low, high] = band.ok;
  return low === null || high === null ? Infinity : high - low;
}

/**
 * Chances of the true value against a band. The camera's part is added in: a normal spread, folded back where the value
 * itself folds.
 */
export function chancesOf(estimate: Estimate, sdCamera: number, band: Band, foldsAt: readonly [number, number] | undefined, seed: string): BandChances {
  const [okLow, okHigh] = band.ok;
  const [actLow, actHigh] = band.act;
  if (estimate.draws) {
    const normals = normalDraws(`${seed} camera`, estimate.draws.length);
    const values = sdCamera > 0 ? estimate.draws.map((draw, i) => folded(draw + sdCamera * (normals[i] ?? 0), foldsAt)) : estimate.draws;
    const share = (holds: (value: number) => boolean) => values.filter(holds).length / values.length;
    return {
      fine: share((value) => value >= (okLow ?? -Infinity) && value <= (okHigh ?? Infinity)),
      low: actLow === null ? 0 : share((value) => value < actLow),
      high: actHigh === null ? 0 : share((value) => value > actHigh),
    };
  }
  const sd = Math.hypot(estimate.sd, sdCamera);
  const below = (limit: number) => (sd > 0 ? normalBelow((limit - estimate.value) / sd) : estimate.value < limit ? 1 : 0);
  const above = (limit: number) => (sd > 0 ? normalBelow((estimate.value - limit) / sd) : estimate.value > limit ? 1 : 0);
  return {
    fine: Math.max(0, 1 - (okLow === null ? 0 : below(okLow)) - (okHigh === null ? 0 : above(okHigh))),
    low: actLow === null ? 0 : below(actLow),
    high: actHigh === null ? 0 : above(actHigh),
  };
}

/** Chances where only "that or more" is known: the library says what that is worth, with certainty. */
export function chancesWhenCensored({ verdict, below }: CensorLimit): BandChances {
  if (verdict.startsWith("inside ok")) return { fine: 1, low: 0, high: 0 };
  return below !== undefined ? { fine: 0, low: 1, high: 0 } : { fine: 0, low: 0, high: 1 };
}

function folded(value: number, limits: readonly [number, number] | undefined): number {
  if (!limits) return value;
  const [low, high] = limits;
  if (value > high) return Math.max(low, 2 * high - value);
  return value < low ? Math.min(high, 2 * low - value) : value;
}

/** Source: terms `verdictRule`; tried in its order: talk about, fine, cannot tell, watch. */
export function verdictOf(chances: BandChances, sd: number, band: Band, rules: ReadingRules["verdict"]): Verdict {
  if (Math.max(chances.low, chances.high) >= rules.talkAtLeast) return "talk-about";
  if (chances.fine >= rules.fineAtLeast) return "fine";
  return sd > rules.cannotTellSdOverOkWidth * okWidth(band) ? "cannot-tell" : "watch";
}

/** On which side of the `ok` band a value lies; null inside. */
export function deviationOf(value: number, band: Band): { readonly side: "low" | "high"; readonly distance: number } | null {
  const [low, high] = band.ok;
  if (low !== null && value < low) return { side: "low", distance: low - value };
  return high !== null && value > high ? { side: "high", distance: value - high } : null;
}

/** How big a deviation is, in words; null under one SD. Source: terms `sizeRule`. */
export function sizeOf(distance: number, sd: number, width: number, rules: ReadingRules["size"]): DeviationSize | null {
  if (!(distance > 0) || distance < sd) return null;
  for (const size of ["large", "clear"] as const) {
    const { sdAtLeast, widthAtLeast } = rules[size];
    if (distance >= sdAtLeast * sd && distance >= widthAtLeast * width) return size;
  }
  return "small";
}
