import type { MeanSquares } from "@/lib/measure/several/agreement/mean-squares";
import { fQuantile } from "@/lib/measure/several/distributions/quantiles";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/**
 * Which raters: `one-way` = every thing by other raters, ICC(1,1); `random` = a sample of raters whose levels count,
 * ICC(2,1); `fixed` = just these raters, whose levels do not count, ICC(3,1).
 */
export type RaterModel = "one-way" | "random" | "fixed";

/** Share of the spread that is between things and not between measurements of one. */
export interface IntraclassCorrelation {
  readonly model: RaterModel;
  /** For one measurement. */
  readonly single: number;
  readonly low: number;
  readonly high: number;
  /** For the mean of all k. */
  readonly average: number;
}

/**
 * Intraclass correlation with its interval. Unknown when nothing differs that it compares. A negative value is kept: it
 * says that rows differ less than measurements of one row do.
 * Sources: Shrout & Fleiss 1979, Psychol Bull 86:420-428; interval of the random model by McGraw & Wong 1996, Psychol
 * Methods 1:30-46.
 * @param inside 0.95 for a 95 % interval @throws RangeError for a share outside 0 to 1
 */
export function intraclassCorrelation(squares: MeanSquares, model: RaterModel, inside = 0.95): Answer<IntraclassCorrelation> {
  if (!(inside > 0 && inside < 1)) throw new RangeError(`an interval holds a share between 0 and 1, not ${inside}`);
  const { n, k, between, columns, error, within } = squares;
  if (!(between > 0)) return unknownBecause("the things do not differ");
  const upTo = (1 + inside) / 2;
  if (model === "random") {
    const single = (between - error) / (between + (k - 1) * error + (k * (columns - error)) / n);
    return { model, single, average: (between - error) / (between + (columns - error) / n), ...randomInterval(squares, single, upTo) };
  }
  const noise = model === "one-way" ? within : error;
  const freedom = model === "one-way" ? n * (k - 1) : (n - 1) * (k - 1);
  const single = (between - noise) / (between + (k - 1) * noise);
  const average = (between - noise) / between;
  if (noise === 0) return { model, single, average, low: 1, high: 1 };
  const ofRatio = (ratio: number) => (ratio - 1) / (ratio + k - 1);
  const ratio = between / noise;
  return { model, single, average, low: ofRatio(ratio / fQuantile(upTo, n - 1, freedom)), high: ofRatio(ratio * fQuantile(upTo, freedom, n - 1)) };
}

/** The levels of the raters are a sample too: their freedom is Satterthwaite's. */
function randomInterval({ n, k, between, columns, error }: MeanSquares, rho: number, upTo: number): { readonly low: number; readonly high: number } {
  if (rho >= 1) return { low: 1, high: 1 };
  const a = (k * rho) / (n * (1 - rho));
  const b = 1 + (k * rho * (n - 1)) / (n * (1 - rho));
  const freedom = (a * columns + b * error) ** 2 / ((a * columns) ** 2 / (k - 1) + (b * error) ** 2 / ((n - 1) * (k - 1)));
  const rest = k * columns + (k * n - k - n) * error;
  const lower = fQuantile(upTo, n - 1, freedom);
  const upper = fQuantile(upTo, freedom, n - 1);
  return { low: (n * (between - lower * error)) / (lower * rest + n * between), high: (n * (upper * between - error)) / (rest + n * upper * between) };
}
