import { seededRandom } from "@/lib/core/random";
import type { ClipInput, EventId, FramePoints, PlacedPoint, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { markedEventSdSeconds, MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import { POINT_IDS } from "@/seed/media/points";
import { sideAxes } from "@/seed/media/readings";
import type { SwingTruth } from "@/seed/media/truth";
import conventionFile from "@/seed/library/conventions.json";

/** How a coach's marks on a synthetic swing are made. */
export interface Marking {
  readonly framesPerSecond: number;
  /** Where contact falls after the frame before it, as a share of the interval: 0 = on a frame. */
  readonly contactPhase?: number;
  /** The file is mirrored. */
  readonly isMirrored?: boolean;
  /** Seed of the points' noise; null = points without noise. */
  readonly noiseSeed?: string | null;
  /** Events are missed by the SD that a person's marks have, before they fall on the nearest frame. */
  readonly areEventsMissed?: boolean;
  /** `reach`: points as far from an event as its own doubt reaches, and the still hitter before the stance; `beside`: on
   * the frames next to each event only. Both: at contact its frame and the two before it. `every-frame`: points on all
   * frames and events at their true times between frames. */
  readonly habit?: "reach" | "beside" | "every-frame";
  /** The bat is also marked after contact, where it lies across the picture. */
  readonly isBatMarkedAcross?: boolean;
}

/** What a reading is made from. */
export interface MarkedSwing {
  readonly clip: ClipInput;
  readonly swing: SwingInput;
}

const MARKED = ["stance", "load", "toe", "plant", "launch"] as const satisfies readonly EventId[];
/** Seconds from the stance mark at which a coach sets points on the still hitter. */
const STILL_SECONDS = [-0.2, -0.15, -0.1];
/** Seconds after contact at which the bat lies across a side picture: there it shows its whole length. */
const BAT_ACROSS_SECONDS = [0.03, 0.04, 0.05, 0.06];
const AGE_YEARS = { child: 9, teen: 15, adult: 25 } as const;

/** Length of the trunk in pixels at the stance, from the truth. */
export function trueTorsoPx(truth: SwingTruth): number {
  const at = sideAxes(truth.pointsAt(truth.events.stance), 1);
  const [u, v] = (["u", "v"] as const).map((axis) => (at("sh_f")[axis] + at("sh_b")[axis] - at("hip_f")[axis] - at("hip_b")[axis]) / 2);
  return Math.hypot(u ?? NaN, v ?? NaN);
}

/** SD in pixels of one coordinate of a placed point, by the library's noise model. */
export function placedNoisePx(torsoPx: number): number {
  const { T, px } = conventionFile.conventions.noise.placed;
  return Math.max(T * torsoPx, px);
}

/**
 * What readings are made from, as a coach would mark it: events on frames, all points on the frames around each event
 * that a reading needs.
 */
export function markedSwing(truth: SwingTruth, marking: Marking): MarkedSwing {
  const { framesPerSecond, contactPhase = 0, isMirrored = false, noiseSeed = null, areEventsMissed = false, habit = "reach", isBatMarkedAcross = false } = marking;
  const { spec, events } = truth;
  const period = 1 / framesPerSecond;
  const random = seededRandom(`golden ${noiseSeed}`);
  const before = Math.round(1.3 * framesPerSecond);
  const times = Array.from({ length: before + Math.round(0.6 * framesPerSecond) }, (_, i) => (i - before - contactPhase) * period);
  const frameAt = (seconds: number) => Math.round(seconds * framesPerSecond + before + contactPhase);
  const isExact = habit === "every-frame";
  const contactFrame = frameAt(0);
  const zero = isExact ? 0 : (times[contactFrame] ?? NaN);
  const secondsFromContact = times.map((time) => time - zero);

  const marks: Partial<Record<EventId, SwingEvent>> = {};
  const full = new Set(isExact ? times.keys() : [contactFrame - 2, contactFrame - 1, contactFrame]);
  const mark = (id: (typeof MARKED)[number] | "contact", frame: number) => {
    const seconds = isExact ? events[id] : (secondsFromContact[frame] ?? NaN);
    marks[id] = { seconds, sdSeconds: markedEventSdSeconds(id, period), source: "placed", framePeriodSeconds: period };
  };
  mark("contact", contactFrame);
  for (const id of MARKED) {
    const frame = frameAt(events[id] + (areEventsMissed ? MARKED_SD_SECONDS[id] * random.normal() : 0));
    mark(id, frame);
    if (id === "toe" || isExact) continue;
    const reach = habit === "beside" ? 1 : Math.max(1, Math.round(MARKED_SD_SECONDS[id] * framesPerSecond));
    for (const step of [-reach, 0, reach]) full.add(frame + step);
    if (id === "stance" && habit === "reach") for (const seconds of STILL_SECONDS) full.add(frame + Math.round(seconds * framesPerSecond));
  }
  const batOnly = new Set(isBatMarkedAcross ? BAT_ACROSS_SECONDS.map((seconds) => frameAt(seconds)) : []);

  const sd = noiseSeed === null ? 0 : placedNoisePx(trueTorsoPx(truth));
  const points: Record<number, FramePoints> = {};
  for (const frame of [...full, ...batOnly].sort((a, b) => a - b)) {
    const places = truth.pointsAt(times[frame] ?? NaN);
    const own: Partial<Record<(typeof POINT_IDS)[number], PlacedPoint>> = {};
    for (const id of full.has(frame) ? POINT_IDS : (["knob", "tip"] as const)) {
      const x = places[id].x + (sd && sd * random.normal());
      own[id] = { x: isMirrored ? spec.widthPx - x : x, y: places[id].y + (sd && sd * random.normal()), source: "placed" };
    }
    points[frame] = own;
  }
  const clip: ClipInput = {
    view: spec.view, mirrored: isMirrored, secondsFromContact, captureFps: framesPerSecond, cameraOffDeg: spec.cameraOffDeg,
    cameraMoved: false, cameraZoomed: false, stabilised: false, widthPx: spec.widthPx, heightPx: spec.heightPx, points,
  };
  const swing: SwingInput = { side: spec.side, swingKind: "power", task: spec.task, ageYears: AGE_YEARS[spec.body], events: marks };
  return { clip, swing };
}
