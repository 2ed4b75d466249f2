import type { GreyPicture } from "@/lib/measure/following/grey-picture";

/** The same picture at its own size and at halves of it, largest first. */
export interface Pyramid {
  readonly levels: readonly GreyPicture[];
  readonly leftPx: number;
  readonly topPx: number;
}

/** Low pass before every halving. Source: J.-Y. Bouguet, Pyramidal implementation of the Lucas Kanade feature tracker (Intel, 2000), section 2.1. */
const LOW_PASS = [1 / 16, 1 / 4, 3 / 8, 1 / 4, 1 / 16] as const;
/** A level smaller than this in either direction is not made. */
const LEAST_SIDE = 16;

/**
 * Halves a picture again and again: pixel (x, y) of a level lies over pixel (2x, 2y) of the one before, smoothed; at the rim the
 * outermost pixels stand for those beyond.
 * @param most levels, the picture itself among them
 */
export function pyramidOf(picture: GreyPicture, most: number): Pyramid {
  const levels: GreyPicture[] = [picture];
  for (let last = picture; levels.length < most && Math.min(last.widthPx, last.heightPx) >= 2 * LEAST_SIDE; ) {
    last = halved(last);
    levels.push(last);
  }
  return { levels, leftPx: picture.leftPx ?? 0, topPx: picture.topPx ?? 0 };
}

function halved({ widthPx: wide, heightPx: high, values }: GreyPicture): GreyPicture {
  const [widthPx, heightPx] = [(wide + 1) >> 1, (high + 1) >> 1];
  const across = new Float32Array(widthPx * high);
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < widthPx; x++) {
      let sum = 0;
      for (let k = -2; k <= 2; k++) sum += (LOW_PASS[k + 2] ?? 0) * (values[y * wide + Math.max(0, Math.min(wide - 1, 2 * x + k))] ?? 0);
      across[y * widthPx + x] = sum;
    }
  }
  const both = new Float32Array(widthPx * heightPx);
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      let sum = 0;
      for (let k = -2; k <= 2; k++) sum += (LOW_PASS[k + 2] ?? 0) * (across[Math.max(0, Math.min(high - 1, 2 * y + k)) * widthPx + x] ?? 0);
      both[y * widthPx + x] = sum;
    }
  }
  return { widthPx, heightPx, values: both };
}
