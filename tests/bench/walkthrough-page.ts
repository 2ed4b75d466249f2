import { nothingShown, turnShowing } from "@/lib/domains/clips/components/beside/showing";
import type { FrameSource } from "@/lib/domains/clips/components/frame-source-type";
import { openLocalFilm } from "@/lib/domains/clips/components/local-film";
import { ReplayClock } from "@/lib/domains/walkthroughs/components/replay/replay-clock";
import { followList, type Stand } from "@/lib/domains/walkthroughs/list/rules";
import { talkOver, ticksOf } from "./walkthrough-list";

/** What was found at one point of the talk. */
export interface DriftPoint {
  readonly ms: number;
  /** How long ago the frames on the canvas had been the right ones when they were looked at, in milliseconds of the voice; 0 while they still are. */
  readonly driftMs: number;
  /** From asking for the instant until its frames lay on the canvas. */
  readonly seekMs: number;
}

interface Bench {
  open(copy: string, voice: string, contactFrame: number, seconds: number): Promise<number>;
  point(ms: number): Promise<DriftPoint>;
}

let sources: readonly FrameSource[];
let follow: (ms: number) => Stand;
let clock: ReplayClock;
let voice: HTMLAudioElement;
let pen: CanvasRenderingContext2D;

const key = (stand: Stand) => stand.frames.join(" ");
const rest = (ms: number) => new Promise((done) => setTimeout(done, ms));

async function open(copy: string, voiceUrl: string, contactFrame: number, seconds: number): Promise<number> {
  const blob = await (await fetch(copy)).blob();
  sources = await Promise.all([0, 1].map(async () => (await openLocalFilm(blob)).source));
  const frameCount = sources[0]?.frameCount ?? 1;
  const list = talkOver(frameCount, contactFrame, 1, seconds);
  follow = followList(list, [ticksOf(frameCount), ticksOf(frameCount)]);
  voice = new Audio();
  clock = new ReplayClock(voice, [{ id: "a", takeId: "one", fromMs: 0, toMs: list.durationMs }], { one: { url: voiceUrl, lengthMs: list.durationMs } });
  pen = document.querySelector("canvas")?.getContext("2d") as CanvasRenderingContext2D;
  return frameCount;
}

const LISTENED_MS = 500;

/** Goes to an instant, plays half a second from there, and looks at the end how old what is on the canvas is. */
async function point(ms: number): Promise<DriftPoint> {
  clock.hold();
  const begun = performance.now();
  let [showing, painted, seekMs] = [nothingShown, "", NaN];
  /** Until when each set of frames was the right one. */
  const rightUntil = new Map<string, number>();
  const frames = (stand: Stand) => ({ "0": stand.frames[0] ?? 0, "1": stand.frames[1] ?? 0 });
  const turn = (nowMs: number) => {
    const at = clock.turn(nowMs);
    const stand = follow(at);
    rightUntil.set(key(stand), at);
    const before = showing;
    showing = turnShowing(showing, frames(stand), (id, frame) => sources[Number(id)]?.draw(frame, () => undefined) ?? false, nowMs);
    const sentFor = showing.onItsWay ?? showing.shown;
    sources.forEach((own, i) => own.want(sentFor[String(i)] ?? 0, 1));
    if (showing.shown !== before.shown) {
      sources.forEach((own, i) => own.draw(showing.shown[String(i)] ?? 0, (picture) => pen.drawImage(picture, i * 480, 0, 480, 270)));
      painted = `${showing.shown["0"]} ${showing.shown["1"]}`;
      if (Number.isNaN(seekMs) && rightUntil.has(painted)) seekMs = performance.now() - begun;
    }
  };
  clock.seek(ms);
  clock.play();
  await new Promise<void>((done) => {
    const go = (nowMs: number) => {
      turn(nowMs);
      if (clock.ms - ms >= LISTENED_MS || performance.now() - begun > 8000) done();
      else requestAnimationFrame(go);
    };
    requestAnimationFrame(go);
  });
  const heard = voice.currentTime * 1000;
  const driftMs = painted === key(follow(heard)) ? 0 : heard - (rightUntil.get(painted) ?? ms);
  clock.hold();
  await rest(20);
  return { ms, driftMs, seekMs };
}

(window as unknown as { walkthroughBench: Bench }).walkthroughBench = { open, point };
