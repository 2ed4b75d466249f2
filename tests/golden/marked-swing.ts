import { seededRandom } from "@/lib/core/random";
import type { ClipInput, EventId, FramePoints, PlacedPoint, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { markedEventSdSeconds, MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import conventionFile from "@/seed/library/conventions.json";
import type { SwingEvents } from "@/seed/media/events";
import { POINT_IDS } from "@/seed/media/points";
import type { Projected } from "@/seed/media/readings";
import { CLIP_AFTER_FINISH_SECONDS, CLIP_BEFORE_STANCE_SECONDS } from "@/seed/media/readings/hitter-grid";
import type { SwingSpec } from "@/seed/media/spec";
import { errorsOf, type NoiseKind } from "./marked-noise";

/** A true swing in one camera's picture, as far as marking it needs. */
export interface MarkableSwing {
  readonly spec: SwingSpec;
  readonly events: SwingEvents;
  readonly releaseSeconds: number | null;
  readonly pointsAt: (timeSeconds: number) => Projected;
}

/** How a coach's marks on a synthetic swing are made. */
export interface Marking {
  readonly framesPerSecond: number;
  /** Where contact falls after the frame before it, as a share of the interval: 0 = on a frame. */
  readonly contactPhase?: number;
  /** The file is mirrored. */
  readonly isMirrored?: boolean;
  /** Frames come up to a quarter of an interval early or late, as their own times say. */
  readonly isUneven?: boolean;
  /** Seed of the points' noise; null = points without noise. */
  readonly noiseSeed?: string | null;
  readonly noise?: NoiseKind;
  /** Events are missed by the SD that a person's marks have, before they fall on the nearest frame. */
  readonly areEventsMissed?: boolean;
  /** Events lie at their true times between frames. */
  readonly areEventsExact?: boolean;
  /** `every-frame`: points on all frames of the clip. `reach`: points as far from an event as its own doubt reaches, and the
   * still hitter before the stance; `beside`: on the frames next to each event only; both at contact on its frame and the two
   * before it. */
  readonly habit?: "reach" | "beside" | "every-frame";
  /** With `every-frame`: only so many frames apart, beside the frames that `reach` places; 1 = all. */
  readonly framesApart?: number;
  /** Seconds of the clip before the stance. */
  readonly secondsBeforeStance?: number;
  /** The bat is also marked after contact, where it lies across the picture. */
  readonly isBatMarkedAcross?: boolean;
}

/** What a reading is made from. */
export interface MarkedSwing {
  readonly clip: ClipInput;
  readonly swing: SwingInput;
}

/** Events a coach marks, but contact. */
const MARKED = ["stance", "load", "toe", "plant", "launch", "extension", "finish"] as const satisfies readonly EventId[];
/** Events beside which points are set when not every frame gets them. */
const NEEDS_POINTS: readonly EventId[] = ["stance", "load", "plant", "launch"];
/** Seconds from the stance mark at which a coach sets points on the still hitter. */
const STILL_SECONDS = [-0.2, -0.15, -0.1];
/** Seconds after contact at which the bat lies across a side picture: there it shows its whole length. */
const BAT_ACROSS_SECONDS = [0.03, 0.04, 0.05, 0.06];
const AGE_YEARS = { child: 9, teen: 15, adult: 25 } as const;

/** Length of the trunk in pixels at the stance, from the truth. */
export function trueTorsoPx({ pointsAt, events }: Pick<MarkableSwing, "pointsAt" | "events">): number {
  const { sh_f, sh_b, hip_f, hip_b } = pointsAt(events.stance);
  return Math.hypot(sh_f.x + sh_b.x - hip_f.x - hip_b.x, sh_f.y + sh_b.y - hip_f.y - hip_b.y) / 2;
}

/** SD in pixels of one coordinate of a placed point, by the library's noise model. */
export function placedNoisePx(torsoPx: number): number {
  const { T, px } = conventionFile.conventions.noise.placed;
  return Math.max(T * torsoPx, px);
}

/**
 * What readings are made from, as a coach would mark it: events on frames, points on the frames that a reading needs. Times are
 * counted from the mark of contact.
 */
export function markedSwing(truth: MarkableSwing, marking: Marking): MarkedSwing {
  const { framesPerSecond, isMirrored = false, isUneven = false, noiseSeed = null, areEventsMissed = false, areEventsExact = false, habit = "reach", framesApart = 1 } = marking;
  const { spec, events } = truth;
  const period = 1 / framesPerSecond;
  const random = seededRandom(`golden ${noiseSeed}`);
  const times = frameTimes(truth.events, marking, isUneven ? seededRandom(`uneven ${noiseSeed}`).uniform : () => 0.5);
  const frameAt = (seconds: number) => nearestFrame(times, seconds);
  const contactFrame = frameAt(0);
  const zero = areEventsExact ? 0 : (times[contactFrame] ?? NaN);
  const secondsFromContact = times.map((time) => time - zero);

  const marks: Partial<Record<EventId, SwingEvent>> = {};
  const full = new Set(habit === "every-frame" ? [...times.keys()].filter((frame) => frame % framesApart === 0) : []);
  for (const step of [-2, -1, 0]) full.add(contactFrame + step);
  const mark = (id: EventId, trueSeconds: number) => {
    const frame = frameAt(trueSeconds + (areEventsMissed ? MARKED_SD_SECONDS[id] * random.normal() : 0));
    const seconds = areEventsExact ? trueSeconds : (secondsFromContact[frame] ?? NaN);
    marks[id] = { seconds, sdSeconds: markedEventSdSeconds(id, period), source: "placed", framePeriodSeconds: period };
    if ((habit === "every-frame" && framesApart === 1) || !NEEDS_POINTS.includes(id)) return;
    const reach = habit === "beside" ? 1 : Math.max(1, Math.round(MARKED_SD_SECONDS[id] * framesPerSecond));
    for (const step of [-reach, 0, reach]) full.add(frame + step);
    if (id === "stance" && habit === "reach") for (const seconds of STILL_SECONDS) full.add(frame + Math.round(seconds * framesPerSecond));
  };
  mark("contact", 0);
  for (const id of MARKED) mark(id, events[id]);
  const hasRelease = spec.task === "toss" && truth.releaseSeconds !== null;
  if (hasRelease && truth.releaseSeconds !== null) mark("release", truth.releaseSeconds);

  const batOnly = new Set(marking.isBatMarkedAcross ? BAT_ACROSS_SECONDS.map(frameAt) : []);
  const points = placedPoints(truth, marking, times, full, batOnly);
  const clip: ClipInput = {
    view: spec.view, mirrored: isMirrored, secondsFromContact, captureFps: framesPerSecond, cameraOffDeg: spec.cameraOffDeg,
    cameraMoved: false, cameraZoomed: false, stabilised: false, widthPx: spec.widthPx, heightPx: spec.heightPx, points,
  };
  const releaseSource = hasRelease ? "marked" : "none";
  const swing: SwingInput = { side: spec.side, swingKind: "power", task: spec.task, ageYears: AGE_YEARS[spec.body], releaseSource, leftBox: false, events: marks };
  return { clip, swing };
}

/** Times of the clip's frames in seconds from true contact. */
function frameTimes(events: SwingEvents, { framesPerSecond, contactPhase = 0, secondsBeforeStance = CLIP_BEFORE_STANCE_SECONDS }: Marking, uniform: () => number): readonly number[] {
  const before = Math.floor((secondsBeforeStance - events.stance) * framesPerSecond);
  const after = Math.floor((events.finish + CLIP_AFTER_FINISH_SECONDS) * framesPerSecond);
  return Array.from({ length: before + after + 1 }, (_, i) => (i - before - contactPhase + (uniform() - 0.5) / 2) / framesPerSecond);
}

function nearestFrame(times: readonly number[], seconds: number): number {
  const after = times.findIndex((time) => time >= seconds);
  if (after <= 0) return after === 0 ? 0 : times.length - 1;
  return seconds - (times[after - 1] ?? NaN) < (times[after] ?? NaN) - seconds ? after - 1 : after;
}

/** All points on the `full` frames, the bat alone on others, with noise drawn from frame to frame. */
function placedPoints(truth: MarkableSwing, marking: Marking, times: readonly number[], full: ReadonlySet<number>, batOnly: ReadonlySet<number>): Record<number, FramePoints> {
  const { spec, pointsAt } = truth;
  const { noiseSeed = null, noise = "assumed", isMirrored = false } = marking;
  const sd = noiseSeed === null ? 0 : placedNoisePx(trueTorsoPx(truth));
  const random = seededRandom(`points ${noiseSeed}`);
  const errors = POINT_IDS.map(() => [errorsOf(noise, random), errorsOf(noise, random)] as const);
  const points: Record<number, FramePoints> = {};
  for (const frame of [...new Set([...full, ...batOnly])].sort((a, b) => a - b)) {
    const places = pointsAt(times[frame] ?? NaN);
    const own: Partial<Record<(typeof POINT_IDS)[number], PlacedPoint>> = {};
    POINT_IDS.forEach((id, i) => {
      if (!full.has(frame) && id !== "knob" && id !== "tip") return;
      const x = places[id].x + (sd && sd * (errors[i]?.[0]() ?? NaN));
      own[id] = { x: isMirrored ? spec.widthPx - x : x, y: places[id].y + (sd && sd * (errors[i]?.[1]() ?? NaN)), source: "placed" };
    });
    points[frame] = own;
  }
  return points;
}
