/** A grey picture, or a piece of one, row by row; 0 = black, 255 = white. */
export interface GreyPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly values: Float32Array | Uint8Array | Uint8ClampedArray;
  /** Where its upper left corner lies in the whole picture, whole pixels; 0 when it is the whole. */
  readonly leftPx?: number;
  readonly topPx?: number;
}

/** A place in a picture: pixels from its upper left corner, pixel centres at halves. */
export interface PicturePlace {
  readonly x: number;
  readonly y: number;
}

/** The value between pixel centres, bilinear. NaN outside the outermost centres. @param u, v in pixels counted from the first pixel's centre */
export function greyAt({ widthPx, heightPx, values }: GreyPicture, u: number, v: number): number {
  if (!(u >= 0 && v >= 0 && u <= widthPx - 1 && v <= heightPx - 1)) return NaN;
  const [x, y] = [Math.min(widthPx - 2, Math.floor(u)), Math.min(heightPx - 2, Math.floor(v))];
  const [a, b] = [u - x, v - y];
  const at = y * widthPx + x;
  const above = (values[at] ?? NaN) * (1 - a) + (values[at + 1] ?? NaN) * a;
  const below = (values[at + widthPx] ?? NaN) * (1 - a) + (values[at + widthPx + 1] ?? NaN) * a;
  return above * (1 - b) + below * b;
}
