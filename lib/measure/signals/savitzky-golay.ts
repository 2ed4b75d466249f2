/** How a row is smoothed by polynomials. */
export interface SavitzkyGolayOptions {
  /** Samples in a window: odd, 3 or more. */
  readonly windowSamples: number;
  /** Degree of the polynomial: below the window's size. */
  readonly degree: number;
  /** 0 = the value, 1 = its slope per second, 2 = its second derivative. */
  readonly derivative?: 0 | 1 | 2;
  /** Seconds between samples; only derivatives need it. */
  readonly intervalSeconds?: number;
}

/**
 * Savitzky and Golay's filter (1964): each sample becomes the value, or a derivative, of the polynomial fitted to the
 * window around it; the first and last half window take that of the first and last whole window, so that nothing is
 * filled in (scipy's mode `interp`). Null for a row shorter than the window; NaN stays NaN within its windows.
 * Source: case T5.4.
 * @throws RangeError for an even or too small window, a degree that is not below it, or a derivative without an interval
 */
export function savitzkyGolay(values: Float64Array, options: SavitzkyGolayOptions): Float64Array | null {
  const { windowSamples, degree, derivative = 0, intervalSeconds = 1 } = options;
  if (!(Number.isInteger(windowSamples) && windowSamples >= 3 && windowSamples % 2 === 1)) throw new RangeError(`a window holds an odd number of samples from 3, not ${windowSamples}`);
  if (!(Number.isInteger(degree) && degree >= 0 && degree < windowSamples)) throw new RangeError(`the degree must be a whole number below ${windowSamples}, not ${degree}`);
  if (!(intervalSeconds > 0)) throw new RangeError(`the interval must be above 0 seconds, not ${intervalSeconds}`);
  if (derivative > 0 && options.intervalSeconds === undefined) throw new RangeError("a derivative needs the interval");
  if (values.length < windowSamples) return null;
  const half = (windowSamples - 1) / 2;
  const kernels = Array.from({ length: windowSamples }, (_, at) => kernel(half, degree, derivative, at - half));
  const unit = intervalSeconds ** derivative;
  return values.map((_, i) => {
    const start = Math.min(Math.max(0, i - half), values.length - windowSamples);
    const weights = kernels[i - start];
    let sum = 0;
    for (let k = 0; k < windowSamples; k++) sum += (weights?.[k] ?? NaN) * (values[start + k] ?? NaN);
    return sum / unit;
  });
}

/**
 * Weights that give a derivative, at place `at` (samples from the middle), of the polynomial fitted to 2 half + 1
 * samples; by discrete orthogonal polynomials (Gram), which stay exact where normal equations do not.
 */
function kernel(half: number, degree: number, derivative: number, at: number): Float64Array {
  const weights = new Float64Array(2 * half + 1);
  const values = Array.from(weights, (_, k) => gram(k - half, half, degree, 0));
  const there = gram(at, half, degree, derivative);
  for (let order = 0; order <= degree; order++) {
    const norm = values.reduce((sum, row) => sum + (row[order] ?? NaN) ** 2, 0);
    for (let k = 0; k < weights.length; k++) weights[k] = (weights[k] ?? 0) + ((values[k]?.[order] ?? NaN) * (there[order] ?? NaN)) / norm;
  }
  return weights;
}

/** A derivative of the Gram polynomials of orders 0 to `degree` over -half … half at one place (Gorry, 1990). */
function gram(at: number, half: number, degree: number, derivative: number): number[] {
  const rows: number[][] = [];
  for (let d = 0; d <= derivative; d++) {
    const row: number[] = [];
    for (let order = 0; order <= degree; order++) {
      if (order === 0) row.push(d === 0 ? 1 : 0);
      else {
        const lead = (4 * order - 2) / (order * (2 * half - order + 1));
        const back = ((order - 1) * (2 * half + order)) / (order * (2 * half - order + 1));
        const below = d > 0 ? d * (rows[d - 1]?.[order - 1] ?? NaN) : 0;
        row.push(lead * (at * (row[order - 1] ?? NaN) + below) - (order > 1 ? back * (row[order - 2] ?? NaN) : 0));
      }
    }
    rows.push(row);
  }
  return rows[derivative] ?? [];
}
