/**
 * The frame number as a strip in the lower left corner: 16 square cells from the left edge, each a sixtieth of the picture's
 * height: white, black (the mark), 12 bits of the frame number with the highest first (white = 1), one parity bit that makes
 * the number of white cells among bits and parity even, black. Being a share of the height it survives scaling.
 */
const BITS = 12;
const CELLS = BITS + 4;

function cellsOf(frameIndex: number): boolean[] {
  if (!Number.isInteger(frameIndex) || frameIndex < 0 || frameIndex >= 1 << BITS) {
    throw new RangeError(`a frame number is 0 to ${(1 << BITS) - 1}, not ${frameIndex}`);
  }
  const bits = Array.from({ length: BITS }, (_, i) => ((frameIndex >> (BITS - 1 - i)) & 1) === 1);
  const isOdd = bits.filter(Boolean).length % 2 === 1;
  return [true, false, ...bits, isOdd, false];
}

/** Draws the strip into an RGB picture (three bytes a pixel). @throws RangeError when the number has more than 12 bits */
export function paintFrameNumber(rgb: Uint8Array, widthPx: number, heightPx: number, frameIndex: number): void {
  const cell = heightPx / 60;
  const cells = cellsOf(frameIndex);
  for (let y = Math.round(heightPx - cell); y < heightPx; y++) {
    for (let x = 0; x < Math.min(widthPx, Math.round(CELLS * cell)); x++) {
      const shade = cells[Math.min(CELLS - 1, Math.floor((x + 0.5) / cell))] ? 235 : 16;
      rgb.fill(shade, 3 * (y * widthPx + x), 3 * (y * widthPx + x) + 3);
    }
  }
}

/**
 * Reads the frame number off a picture of any size: grey, RGB or RGBA bytes, row by row from the top.
 * @returns the number, or null when the mark or the parity does not hold (no strip, or a picture that was cut or turned)
 * @throws RangeError when the bytes do not fill width × height pixels with 1, 3 or 4 bytes each
 */
export function readFrameNumber(pixels: ArrayLike<number>, widthPx: number, heightPx: number): number | null {
  const channels = pixels.length / (widthPx * heightPx);
  if (channels !== 1 && channels !== 3 && channels !== 4) throw new RangeError(`${pixels.length} bytes do not fill ${widthPx} × ${heightPx} pixels`);
  const cell = heightPx / 60;
  const inner = Math.max(0, Math.floor(cell * 0.25));
  const isWhite = Array.from({ length: CELLS }, (_, i) => {
    let sum = 0;
    let count = 0;
    for (let y = Math.round(heightPx - cell) + inner; y < heightPx - inner; y++) {
      for (let x = Math.round(i * cell) + inner; x < Math.round((i + 1) * cell) - inner; x++) {
        const at = channels * (y * widthPx + x);
        sum += channels === 1 ? (pixels[at] ?? 0) : ((pixels[at] ?? 0) + (pixels[at + 1] ?? 0) + (pixels[at + 2] ?? 0)) / 3;
        count++;
      }
    }
    return sum / count > 126;
  });
  const bits = isWhite.slice(2, 2 + BITS);
  const whites = isWhite.slice(2, 3 + BITS).filter(Boolean).length;
  if (!isWhite[0] || isWhite[1] || isWhite[CELLS - 1] || whites % 2 === 1) return null;
  return bits.reduce((number, bit) => number * 2 + (bit ? 1 : 0), 0);
}
