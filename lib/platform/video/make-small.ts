import { writeFile } from "node:fs/promises";
import path from "node:path";
import { createCanvas, loadImage } from "@napi-rs/canvas";

/** So wide that it fills a phone's width at hand, and so light that two of them come with a page's first bytes. */
const SMALL_WIDTH_PX = 480;
const QUALITY = 55;

/** A picture made small enough to come within a page. @returns path of a WebP file in the folder */
export async function makeSmall(picture: string, folder: string): Promise<string> {
  const whole = await loadImage(picture);
  const width = Math.min(SMALL_WIDTH_PX, whole.width);
  const height = Math.max(1, Math.round((whole.height * width) / whole.width));
  const canvas = createCanvas(width, height);
  const pen = canvas.getContext("2d");
  pen.imageSmoothingQuality = "high";
  pen.drawImage(whole, 0, 0, width, height);
  const target = path.join(folder, "small.webp");
  await writeFile(target, await canvas.encode("webp", QUALITY));
  return target;
}
