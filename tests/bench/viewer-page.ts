import { nothingShown, turnShowing, type Frames } from "@/lib/domains/clips/components/beside/showing";
import { viewerBudget } from "@/lib/domains/clips/components/byte-budget";
import type { FrameSource } from "@/lib/domains/clips/components/frame-source-type";
import { openLocalFilm } from "@/lib/domains/clips/components/local-film";

/** One way of showing a frame, in milliseconds from asking: until its pixels lie on a canvas, and until the page has painted. */
export interface Shown {
  readonly drawn: number;
  readonly painted: number;
}

/** One round of the bench in the page. */
export interface ViewerRound {
  readonly repaint: Shown;
  readonly stepOn: Shown;
  readonly stepBack: Shown;
  readonly seek: Shown;
  readonly elementSeek: Shown;
}

/** Four clips scrubbed together for some seconds. */
export interface ScrubRound {
  /** Instants asked for, and those that came to the screen. */
  readonly asked: number;
  readonly shown: number;
  /** How long ago what came to the screen had been asked for, in milliseconds. */
  readonly lagMs: readonly number[];
  /** Sets of pictures that were not of one and the same instant. */
  readonly unlike: number;
  /** From the last wish until it was on the screen. */
  readonly restMs: number;
  readonly mostBytes: number;
}

let source: FrameSource;
let element: HTMLVideoElement;
let pen: CanvasRenderingContext2D;
let seconds: readonly number[];

const painted = () => new Promise<void>((done) => requestAnimationFrame(() => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => done();
  port2.postMessage(null);
}));

/** Opens the clip both ways and shows them beside each other. */
async function open(url: string): Promise<number> {
  const blob = await (await fetch(url)).blob();
  ({ source, seconds } = await openLocalFilm(blob));
  const canvas = document.querySelector("canvas");
  const found = document.querySelector("video");
  const context = canvas?.getContext("2d", { alpha: false });
  if (!canvas || !found || !context) throw new Error("the page has no picture");
  [element, pen] = [found, context];
  element.src = URL.createObjectURL(blob);
  await new Promise((done) => element.addEventListener("loadeddata", done, { once: true }));
  await show(0);
  return source.frameCount;
}

/** Draws and reads a pixel back, so that the drawing has been done and not only been noted. */
function draw(picture: CanvasImageSource): void {
  pen.drawImage(picture, 0, 0, pen.canvas.width, pen.canvas.height);
  pen.getImageData(0, 0, 1, 1);
}

const paint = (frame: number): boolean => source.draw(frame, draw);

async function timed(work: () => Promise<void> | void): Promise<Shown> {
  const start = performance.now();
  await work();
  const drawn = performance.now() - start;
  await painted();
  return { drawn, painted: performance.now() - start };
}

/** Asks for a frame and draws it as soon as it is ready. */
const show = (frame: number, travel: -1 | 0 | 1 = 0): Promise<Shown> =>
  timed(async () => {
    source.want(frame, travel);
    if (paint(frame)) return;
    await new Promise<void>((done) => {
      const stop = source.onReady((ready) => {
        if (ready !== frame) return;
        stop();
        done();
      });
    });
    paint(frame);
  });

/** Sends the element to the middle of a frame and draws what it then presents on the same canvas. */
const showByElement = (frame: number): Promise<Shown> =>
  timed(async () => {
    const end = seconds[frame + 1] ?? (seconds[frame] ?? 0) + 1 / 240;
    const presented = new Promise<void>((done) => element.requestVideoFrameCallback(() => done()));
    element.currentTime = ((seconds[frame] ?? 0) + end) / 2;
    await presented;
    draw(element);
  });

const rest = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** All ways in turn about one frame; the neighbourhood is loaded before steps are timed. */
async function round(frame: number): Promise<ViewerRound> {
  await rest(60);
  const seek = await show(frame);
  await rest(60);
  const elementSeek = await showByElement(frame);
  // Until everything near is decoded, as it is when a person looks.
  await rest(700);
  const stepOn = await show(frame + 1, 1);
  await rest(30);
  const repaint = await timed(() => void paint(frame + 1));
  await rest(30);
  const stepBack = await show(frame, -1);
  return { repaint, stepOn, stepBack, seek, elementSeek };
}

/** Opens the clip four times, as four locked clips, and scrubs to and fro over all of it. */
async function scrub(url: string, seconds: number): Promise<ScrubRound> {
  source.close();
  const blob = await (await fetch(url)).blob();
  const sources = await Promise.all([0, 1, 2, 3].map(async () => (await openLocalFilm(blob)).source));
  const last = (sources[0]?.frameCount ?? 1) - 1;
  const wish = (frame: number): Frames => Object.fromEntries(sources.map((_, i) => [String(i), frame]));
  const askedAt = new Map<number, number>();
  const lagMs: number[] = [];
  let [showing, asked, shown, unlike, mostBytes, frame] = [nothingShown, 0, 0, 0, 0, 0];
  let travel: -1 | 1 = 1;
  const turn = (nowMs: number) => {
    const before = showing;
    showing = turnShowing(showing, wish(frame), (id, at) => sources[Number(id)]?.draw(at, () => undefined) ?? false, nowMs);
    const sentFor = showing.onItsWay ?? showing.shown;
    sources.forEach((own, i) => own.want(sentFor[String(i)] ?? 0, travel));
    mostBytes = Math.max(mostBytes, viewerBudget.heldBytes);
    if (showing.shown === before.shown) return;
    shown += 1;
    if (new Set(Object.values(showing.shown)).size > 1) unlike += 1;
    sources.forEach((own, i) => own.draw(showing.shown[String(i)] ?? 0, (picture) => pen.drawImage(picture, (i % 2) * 480, i < 2 ? 0 : 270, 480, 270)));
    lagMs.push(performance.now() - (askedAt.get(showing.shown["0"] ?? 0) ?? nowMs));
  };
  const start = performance.now();
  while (performance.now() - start < seconds * 1000) {
    const along = (performance.now() - start) / 1000;
    frame = Math.round((0.5 - 0.5 * Math.cos(along * 2.2)) * last);
    travel = Math.sin(along * 2.2) > 0 ? 1 : -1;
    askedAt.set(frame, performance.now());
    asked += 1;
    turn(await new Promise<number>((done) => requestAnimationFrame(done)));
  }
  const resting = performance.now();
  while (showing.shown["0"] !== frame) turn(await new Promise<number>((done) => requestAnimationFrame(done)));
  const restMs = performance.now() - resting;
  for (const own of sources) own.close();
  return { asked, shown, lagMs, unlike, restMs, mostBytes };
}

Object.assign(window, { viewerBench: { open, scrub, round } });
