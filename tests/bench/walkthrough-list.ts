import type { Happening, TakeList } from "@/lib/domains/walkthroughs/list/schema";

const FRAMES_PER_SECOND = 240;

/** A talk of so many seconds over two clips, as a coach talks: steps, plays at a quarter and a half, holds, drawings, something pointed at every half minute. */
export function talkOver(frameCount: number, contactFrame: number, ticksPerFrame: number, seconds: number): TakeList {
  const clipIds = ["11111111-1111-4111-8111-111111111111", "22222222-2222-4222-8222-222222222222"];
  const happenings: Happening[] = [];
  const at = (frame: number) => Math.max(0, Math.min(frameCount - 1, frame));
  for (let s = 1; s < seconds - 8; s += 10) {
    const ms = s * 1000;
    const turn = (s - 1) / 10;
    if (turn % 3 === 0) happenings.push({ at: ms, kind: "call", called: { kind: "fault", id: `fault-${turn}`, name: `The thing number ${turn}` } });
    for (let i = 0; i < 8; i++) happenings.push({ at: ms + 100 + i * 120, kind: "show", frames: [at(contactFrame - 60 + i + (turn % 7) * 9), at(contactFrame - 60 + i + (turn % 7) * 9)] });
    for (let i = 0; i < 10; i++) happenings.push({ at: ms + 1200 + i * 60, kind: "look", clip: 0, look: { zoom: 1 + i / 10, x: 640, y: 360 - i } });
    const places = Array.from({ length: 40 }, (_, i): [number, number] => [500 + i * 6, 300 + Math.round(80 * Math.sin(i / 5))]);
    happenings.push({ at: ms + 2000, kind: "mark", id: `m${turn}`, clip: 0, frame: at(contactFrame - 53 + (turn % 7) * 9), shape: { v: 1, kind: "pen", places }, overMs: 1200, paceMs: places.map((_, i) => i * 30) });
    const from = -0.5;
    happenings.push({ at: ms + 4000, kind: "play", rate: turn % 2 ? 0.25 : 0.5, fromSeconds: from, toSeconds: 0.6, clips: [0, 1] });
    happenings.push({ at: ms + 8500, kind: "show", frames: [contactFrame, contactFrame] }, { at: ms + 8600, kind: "look", clip: 0, look: { zoom: 1, x: 640, y: 360 } });
  }
  return {
    v: 1, durationMs: seconds * 1000,
    clips: clipIds.map((clipId, i) => ({ clipId, frameCount, widthPx: 1280, heightPx: 720, zeroTick: contactFrame * ticksPerFrame, realSecondsPerFileSecond: 1, caption: `Swing ${i + 1}`, marks: [] })),
    start: { frames: [contactFrame, contactFrame], looks: clipIds.map(() => ({ zoom: 1, x: 640, y: 360 })), flips: [false, false], inHand: 0, isLocked: true, hasPoints: false, over: null },
    happenings,
  };
}

export const ticksOf = (frameCount: number) => ({ timeBaseNum: 1, timeBaseDen: FRAMES_PER_SECOND, ticks: Array.from({ length: frameCount }, (_, i) => i) });
