import path from "node:path";
import { createCanvas, GlobalFonts, loadImage, type Canvas, type Image, type SKRSContext2D } from "@napi-rs/canvas";

/** A rectangle of the painted picture, in its pixels. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A frame in its place: screen = picture × scale + (dx, dy) from the area's corner; flipped: −x instead of x. */
export interface PaintedFrame {
  readonly area: Area;
  /** Which picture; null leaves the place black. */
  readonly picture: string | null;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly scale: number;
  readonly dx: number;
  readonly dy: number;
  readonly isFlipped: boolean;
  readonly opacity: number;
}

/** A stroke inside an area, or words in a tag; all in pixels of the painted picture. */
export type PaintedStroke =
  | { readonly area: Area; readonly kind: "line"; readonly places: readonly (readonly [number, number])[] }
  | { readonly area: Area; readonly kind: "ellipse"; readonly x: number; readonly y: number; readonly rx: number; readonly ry: number }
  | { readonly area: Area; readonly kind: "tag"; readonly x: number; readonly y: number; readonly text: string };

/** Everything in one painted picture. Two equal scenes make equal pictures. */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly frames: readonly PaintedFrame[];
  readonly strokes: readonly PaintedStroke[];
  readonly labels: readonly { readonly area: Area; readonly text: string }[];
  /** Words under the pictures; null for none. */
  readonly foot: { readonly area: Area; readonly text: string } | null;
}

const FACE = "Libre Franklin";
const INK = { ground: "#000000", core: "#ffffff", casing: "#6d2a58", tag: "rgba(20,18,16,.86)", words: "#ffffff", quiet: "#d8d4cb" };
let isFaceKnown = false;

function knowFace(): void {
  if (isFaceKnown) return;
  GlobalFonts.registerFromPath(path.resolve("node_modules/@fontsource-variable/libre-franklin/files/libre-franklin-latin-wght-normal.woff2"), FACE);
  GlobalFonts.registerFromPath(path.resolve("node_modules/@fontsource-variable/libre-franklin/files/libre-franklin-latin-ext-wght-normal.woff2"), FACE);
  isFaceKnown = true;
}

/** Paints scenes of one size, one after another, on the same canvas. */
export class ScenePainter {
  private readonly canvas: Canvas;
  private readonly pen: SKRSContext2D;
  private readonly pictures = new Map<string, Image>();

  /** @param mostPictures so many decoded pictures are kept for the next scene */
  constructor(width: number, height: number, private readonly mostPictures = 24) {
    knowFace();
    this.canvas = createCanvas(width, height);
    this.pen = this.canvas.getContext("2d");
  }

  async paint(scene: Scene): Promise<void> {
    const { pen } = this;
    pen.globalAlpha = 1;
    pen.fillStyle = INK.ground;
    pen.fillRect(0, 0, scene.width, scene.height);
    for (const frame of scene.frames) {
      if (frame.picture === null) continue;
      const picture = await this.pictureAt(frame.picture);
      this.within(frame.area, () => {
        pen.globalAlpha = frame.opacity;
        pen.translate(frame.area.x + frame.dx, frame.area.y + frame.dy);
        pen.scale(frame.isFlipped ? -frame.scale : frame.scale, frame.scale);
        pen.drawImage(picture, 0, 0, frame.widthPx, frame.heightPx);
      });
    }
    for (const stroke of scene.strokes) this.within(stroke.area, () => this.stroke(stroke));
    for (const { area, text } of scene.labels) this.within(area, () => this.tag(text, area.x, area.y, 20));
    if (scene.foot) this.foot(scene.foot);
  }

  /** The picture as it stands, four bytes a pixel. */
  bytes(): Buffer {
    return this.canvas.data();
  }

  jpeg(): Buffer {
    return this.canvas.toBuffer("image/jpeg", 90);
  }

  private async pictureAt(file: string): Promise<Image> {
    const kept = this.pictures.get(file);
    if (kept) return kept;
    const picture = await loadImage(file);
    const [oldest] = this.pictures.keys();
    if (this.pictures.size >= this.mostPictures && oldest !== undefined) this.pictures.delete(oldest);
    this.pictures.set(file, picture);
    return picture;
  }

  private within({ x, y, width, height }: Area, work: () => void): void {
    this.pen.save();
    this.pen.beginPath();
    this.pen.rect(x, y, width, height);
    this.pen.clip();
    work();
    this.pen.restore();
  }

  private stroke(stroke: PaintedStroke): void {
    const { pen } = this;
    if (stroke.kind === "tag") return this.tag(stroke.text, stroke.x, stroke.y - 15, 20);
    pen.lineCap = "round";
    pen.lineJoin = "round";
    pen.beginPath();
    if (stroke.kind === "ellipse") pen.ellipse(stroke.x, stroke.y, stroke.rx, stroke.ry, 0, 0, 2 * Math.PI);
    else stroke.places.forEach(([x, y], i) => (i === 0 ? pen.moveTo(x, y) : pen.lineTo(x, y)));
    for (const [style, width] of [[INK.casing, 8], [INK.core, 3.5]] as const) {
      pen.strokeStyle = style;
      pen.lineWidth = width;
      pen.stroke();
    }
  }

  private tag(text: string, x: number, y: number, sizePx: number): void {
    const { pen } = this;
    pen.font = `600 ${sizePx}px "${FACE}"`;
    pen.textBaseline = "middle";
    const width = pen.measureText(text).width + sizePx;
    pen.fillStyle = INK.tag;
    pen.fillRect(x, y, width, sizePx * 1.6);
    pen.fillStyle = INK.words;
    pen.fillText(text, x + sizePx / 2, y + sizePx * 0.8);
  }

  private foot({ area, text }: { readonly area: Area; readonly text: string }): void {
    const { pen } = this;
    for (let sizePx = 28; sizePx >= 14; sizePx -= 2) {
      pen.font = `500 ${sizePx}px "${FACE}"`;
      const lines = this.linesOf(text, area.width - 48);
      if (lines.length * sizePx * 1.3 > area.height && sizePx > 14) continue;
      pen.textBaseline = "middle";
      pen.fillStyle = INK.quiet;
      const top = area.y + (area.height - (lines.length - 1) * sizePx * 1.3) / 2;
      lines.forEach((line, i) => pen.fillText(line, area.x + (area.width - pen.measureText(line).width) / 2, top + i * sizePx * 1.3));
      return;
    }
  }

  private linesOf(text: string, width: number): string[] {
    return text.split("\n").flatMap((given) => {
      const lines: string[] = [];
      for (const word of given.split(" ")) {
        const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
        if (lines.length > 0 && this.pen.measureText(longer).width <= width) lines[lines.length - 1] = longer;
        else lines.push(word);
      }
      return lines;
    });
  }
}
