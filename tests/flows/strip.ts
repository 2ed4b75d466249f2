/**
 * Reads the frame number that drawn swings carry in their lower left corner off the canvas on which a whole picture of 16
 * to 9 is shown (seed/media/frame-number.ts says how it is drawn). Runs in the page, so it uses nothing outside itself.
 * @returns the number, null when there is no strip
 */
export function readStrip(element: Element): number | null {
  const canvas = element as HTMLCanvasElement;
  const scale = Math.min(canvas.width / 16, canvas.height / 9);
  const [left, foot] = [(canvas.width - 16 * scale) / 2, (canvas.height + 9 * scale) / 2];
  const cell = (9 * scale) / 60;
  const pen = canvas.getContext("2d");
  if (!pen) return null;
  const row = pen.getImageData(Math.floor(left), Math.round(foot - cell / 2), Math.ceil(17 * cell), 1).data;
  const isWhite = Array.from({ length: 16 }, (_, i) => (row[4 * Math.round((i + 0.5) * cell)] ?? 0) > 126);
  const whites = isWhite.slice(2, 15).filter(Boolean).length;
  if (!isWhite[0] || isWhite[1] || isWhite[15] || whites % 2 === 1) return null;
  return isWhite.slice(2, 14).reduce((number, bit) => number * 2 + (bit ? 1 : 0), 0);
}
