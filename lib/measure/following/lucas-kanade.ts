import type { PicturePlace } from "@/lib/measure/following/grey-picture";
import { patchWeights, valuesAround, type Patch, type PatchShape } from "@/lib/measure/following/patch";
import type { Pyramid } from "@/lib/measure/following/pyramid";

/** Where a patch was found again. */
export interface PatchFound extends PicturePlace {
  /** Weighted root mean square of what is left between patch and picture, grey values, their means apart. */
  readonly residual: number;
  /** SD in pixels of one coordinate that this residual alone makes, as if it were noise of every pixel by itself. */
  readonly sdPx: number;
}

/** Why a patch was not found: nothing in it changes in some direction; it left the picture; the search ran away or did not settle. */
export type PatchLost = "flat" | "outside" | "unsettled";

/** Smaller eigenvalue of the products, grey values squared a pixel squared, below which a patch is flat. Source of the test: J. Shi and C. Tomasi, Good features to track (CVPR 1994), section 3; the number is ours: a light bat before a light wall has 1.5. */
const LEAST_EIGENVALUE = 1;
const MOST_ROUNDS = 30;
/** A step shorter than this ends the search, pixels of its level. */
const SETTLED_PX = 0.005;
/** On its own level a patch that has gone further than so many radii has run away. */
const MOST_RADII = 1.5;
/** Between pixel centres the mean of four is taken, which keeps (2/3)² of a sensor's noise on average; what moves a patch is not smoothed away with it. */
const KEPT_OF_NOISE = 2 / 3;

/**
 * Looks for a patch in another picture: from the coarsest level down, each round a step of least squares along the patch's own changes,
 * a difference of their means apart, so that a change of light does not move it.
 * Source: B. Lucas and T. Kanade, An iterative image registration technique (IJCAI 1981); pyramid and rounds: Bouguet 2000, section 2.4.
 * @param start where the search begins, pixels of the whole picture
 * @param turnRad how the patch's first axis lies in this picture
 */
export function findPatch(patch: Patch, shape: PatchShape, pyramid: Pyramid, start: PicturePlace, turnRad: number): PatchFound | PatchLost {
  const { radius } = shape;
  const side = 2 * radius + 1;
  const weights = patchWeights(radius);
  const seen = new Float32Array(side * side);
  const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)];
  let { x, y } = start;
  let found: PatchFound | PatchLost = "outside";
  for (let level = Math.min(patch.length, pyramid.levels.length) - 1; level >= 0; level--) {
    const own = patch[level];
    if (!own) continue;
    const [aa, ab, bb] = own.products;
    const smallest = (aa + bb) / 2 - Math.hypot((aa - bb) / 2, ab);
    if (!(smallest >= LEAST_EIGENVALUE)) {
      // A coarse level may be flat where the finest is not.
      if (level > 0) continue;
      return "flat";
    }
    const det = aa * bb - ab * ab;
    const scale = 2 ** level;
    const from = { x, y };
    let isSettled = false;
    let residual = NaN;
    for (let round = 0; round < MOST_ROUNDS && !isSettled; round++) {
      if (!valuesAround(pyramid, level, { x, y }, turnRad, shape, 0, seen)) {
        if (level > 0) break;
        return "outside";
      }
      let [mean, square, ea, eb] = [0, 0, 0, 0];
      for (let at = 0; at < seen.length; at++) {
        const weight = weights[at] ?? 0;
        const off = (own.values[at] ?? 0) - (seen[at] ?? 0);
        mean += weight * off;
        square += weight * off * off;
        ea += weight * off * (own.alongFirst[at] ?? 0);
        eb += weight * off * (own.alongSecond[at] ?? 0);
      }
      residual = Math.sqrt(Math.max(0, square - mean * mean));
      const [a, b] = [(bb * ea - ab * eb) / det, (aa * eb - ab * ea) / det];
      x += scale * (a * cos - b * sin);
      y += scale * (a * sin + b * cos);
      if (!(Math.hypot(x - from.x, y - from.y) <= MOST_RADII * radius * scale)) return "unsettled";
      isSettled = Math.hypot(a, b) < SETTLED_PX;
    }
    if (level === 0 && !isSettled) return "unsettled";
    const spread = weights.reduce((sum, weight) => sum + weight * weight, 0);
    found = { x, y, residual, sdPx: (residual / KEPT_OF_NOISE) * Math.sqrt((spread * (aa + bb)) / (2 * det)) };
  }
  return found;
}
