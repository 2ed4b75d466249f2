import { frameAtTick } from "@/lib/core/frame-times";
import { clockSecondsOf, tickAtClockSeconds } from "../rules";
import type { ClipView } from "../view";
import type { FrameSource } from "./frame-source-type";
import { clockOn, judgeSeconds, longestTurnSeconds, slowPart } from "./playing-pace";

/** The clock runs no further than this ahead of the picture: a device that cannot keep up plays slower. */
const mostLagSeconds = 0.15;

/** Where playing stands, in real seconds from the clip's first frame. */
export interface Playing {
  /** The frame that is shown. */
  readonly frame: number;
  /** Where the clock stands: at the frame shown or between it and the next ones. */
  readonly seconds: number;
  readonly begunSeconds: number;
  /** How far the clock should have run. */
  readonly askedSeconds: number;
  /** It has fallen behind what was asked; null as long as it is too early to say. */
  readonly isSlow: boolean | null;
}

/** What is played, and at which part of real time. */
export interface Played {
  readonly clip: Pick<ClipView, "frameTimes" | "realSecondsPerFileSecond" | "timeBasis">;
  readonly source: Pick<FrameSource, "frameCount" | "want" | "draw">;
  readonly rate: number;
}

/** Begins at a frame; at the last one from the start. */
export function beginPlaying({ clip, source }: Pick<Played, "clip" | "source">, shown: number): Playing {
  const frame = shown >= source.frameCount - 1 ? 0 : shown;
  const seconds = clockSecondsOf(clip, frame, null);
  return { frame, seconds, begunSeconds: seconds, askedSeconds: 0, isSlow: null };
}

/**
 * One turn of playing: the clock goes on by what has passed, at the rate, and the latest frame up to it whose picture is ready is shown; the
 * time of what is shown is always the frame's own.
 * @param passedSeconds real time since the last turn
 */
export function playTurn(now: Playing, { clip, source, rate }: Played, passedSeconds: number): Playing {
  const passed = Math.min(longestTurnSeconds, passedSeconds);
  const last = source.frameCount - 1;
  const askedSeconds = now.askedSeconds + passed * rate;
  const shown = clockSecondsOf(clip, now.frame, null);
  const nextShown = clockSecondsOf(clip, Math.min(last, now.frame + 1), null);
  const seconds = clockOn(now.seconds, passed, rate, Math.max(shown + mostLagSeconds * rate, nextShown));
  const target = frameAtTick(clip.frameTimes, tickAtClockSeconds(clip, seconds, null) + 1e-6);
  source.want(target, 1);
  const isSlow = askedSeconds > judgeSeconds * rate ? seconds - now.begunSeconds < askedSeconds * slowPart : now.isSlow;
  return { ...now, frame: latestReady(source, now.frame, target), seconds, askedSeconds, isSlow };
}

/** The latest frame after `shown` and up to `target` whose picture is ready; `shown` when there is none. */
function latestReady(source: Played["source"], shown: number, target: number): number {
  for (let frame = target; frame > shown; frame -= 1) if (source.draw(frame, () => undefined)) return frame;
  return shown;
}
