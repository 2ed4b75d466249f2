import type { FrameTimes } from "@/lib/core/frame-times";
import type { TakeList } from "./schema";

const clipIds = ["11111111-1111-4111-8111-111111111111", "22222222-2222-4222-8222-222222222222"] as const;

/** Two clips of 240 and 60 frames a second, both with contact a second in, for tests: what is not given is plain. */
export function takeList(given: Partial<TakeList> = {}): TakeList {
  const clip = (i: 0 | 1, frameCount: number) => ({
    clipId: clipIds[i], frameCount, widthPx: 1280, heightPx: 720, zeroTick: 90_000, realSecondsPerFileSecond: 1, caption: i === 0 ? "This swing" : "18 Nov", marks: [],
  });
  return {
    v: 1, durationMs: 40_000, clips: [clip(0, 480), clip(1, 120)],
    start: {
      frames: [240, 60], looks: [{ zoom: 1, x: 640, y: 360 }, { zoom: 1, x: 640, y: 360 }], flips: [false, false], inHand: 0, isLocked: true, hasPoints: false, over: null,
    },
    happenings: [], ...given,
  };
}

const everyTick = (count: number, apart: number): FrameTimes => ({ timeBaseNum: 1, timeBaseDen: 90_000, ticks: Array.from({ length: count }, (_, i) => i * apart) });
export const twoTimes: readonly FrameTimes[] = [everyTick(480, 375), everyTick(120, 1500)];
