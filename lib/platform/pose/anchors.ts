/** Side of the detector's input picture in pixels. */
export const DETECTOR_SIDE = 224;

/** Cells of the detector's grids: how many pixels of its input a cell spans, and how many guesses are made in each. */
const LAYERS = [
  { stride: 8, guesses: 2 },
  { stride: 16, guesses: 2 },
  { stride: 32, guesses: 6 },
] as const;

/**
 * The middles from which the detector's guesses are counted, as parts of its input (0 to 1, from the upper left), in the order of its output: 2,254
 * of them. All anchors are of the size of the input, so that only their places matter.
 * Source: the options of the model's own graph (strides 8, 16, 32, 32, 32; anchor offset 0.5; fixed anchor size).
 */
export const ANCHORS: readonly (readonly [number, number])[] = LAYERS.flatMap(({ stride, guesses }) => {
  const cells = Math.ceil(DETECTOR_SIDE / stride);
  const middles = Array.from({ length: cells }, (_, i) => (i + 0.5) / cells);
  return middles.flatMap((y) => middles.flatMap((x) => Array.from({ length: guesses }, () => [x, y] as const)));
});
