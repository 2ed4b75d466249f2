/** A place in pixels of the picture, from its upper left corner, y down; pixel centres lie at halves. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** A turned square of the picture: its middle, its side in pixels, and by how much it is turned clockwise, in radians. */
export interface Crop extends Place {
  readonly size: number;
  readonly turnRad: number;
}

/** A picture as bytes: red, green, blue, row by row from the top. */
export interface Pixels {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Room around a body beyond the circle through its alignment points (the model's own figure). */
const ROOM = 1.25;

/** The smallest square with the whole picture in it, in its middle. */
export function wholeCrop({ width, height }: Pick<Pixels, "width" | "height">): Crop {
  return { x: width / 2, y: height / 2, size: Math.max(width, height), turnRad: 0 };
}

/**
 * The square in which a body stands upright.
 * @param middle middle of the hips
 * @param top where the circle around the whole body is met along the spine, as the model gives it
 */
export function bodyCrop(middle: Place, top: Place): Crop {
  const [across, up] = [top.x - middle.x, middle.y - top.y];
  const turn = Math.PI / 2 - Math.atan2(up, across);
  return { x: middle.x, y: middle.y, size: 2 * Math.hypot(across, up) * ROOM, turnRad: turn - 2 * Math.PI * Math.floor((turn + Math.PI) / (2 * Math.PI)) };
}

/** A place of a crop (0 to 1 along its sides, from its upper left corner) as a place of the picture. */
export function placeInPicture(crop: Crop, across: number, down: number): Place {
  const [u, v] = [(across - 0.5) * crop.size, (down - 0.5) * crop.size];
  const [cos, sin] = [Math.cos(crop.turnRad), Math.sin(crop.turnRad)];
  return { x: crop.x + u * cos - v * sin, y: crop.y + u * sin + v * cos };
}

/**
 * Samples a crop to a square of numbers, straight lines between pixels.
 * @param target side × side × 3 numbers, filled row by row
 * @param range what black and white become; beyond the picture all is black
 */
export function sampleCrop({ bytes, width, height }: Pixels, crop: Crop, side: number, range: readonly [number, number], target: Float32Array): Float32Array {
  const [black, white] = range;
  const perLevel = (white - black) / 255;
  const step = crop.size / side;
  const [cos, sin] = [Math.cos(crop.turnRad) * step, Math.sin(crop.turnRad) * step];
  let at = 0;
  for (let row = 0; row < side; row++) {
    const v = row + 0.5 - side / 2;
    for (let column = 0; column < side; column++) {
      const u = column + 0.5 - side / 2;
      const [x, y] = [crop.x + u * cos - v * sin - 0.5, crop.y + u * sin + v * cos - 0.5];
      if (x < 0 || y < 0 || x >= width - 1 || y >= height - 1) {
        target[at++] = target[at++] = target[at++] = black;
        continue;
      }
      const [left, top] = [x | 0, y | 0];
      const [fx, fy] = [x - left, y - top];
      const upper = (top * width + left) * 3;
      const lower = upper + width * 3;
      const weights = [(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy] as const;
      for (let colour = 0; colour < 3; colour++) {
        const level =
          weights[0] * (bytes[upper + colour] ?? 0) + weights[1] * (bytes[upper + 3 + colour] ?? 0) + weights[2] * (bytes[lower + colour] ?? 0) + weights[3] * (bytes[lower + 3 + colour] ?? 0);
        target[at++] = black + perLevel * level;
      }
    }
  }
  return target;
}
