import { seededRandom } from "@/lib/core/random";
import { batCourse, FOLLOWED_POINTS, type BatEnds, type FollowedPoint } from "@/lib/measure/following/bat-course";
import { followBat, framesOf, lookedAt, PYRAMID_LEVELS } from "@/lib/measure/following/follow-bat";
import type { GreyPicture } from "@/lib/measure/following/grey-picture";
import { pyramidOf } from "@/lib/measure/following/pyramid";
import { Painter } from "@/seed/media/painter";
import type { SwingSpec } from "@/seed/media/spec";
import { truthOf } from "@/seed/media/truth";
import { placedNoisePx, trueTorsoPx } from "./marked-swing";

/** How a drawn swing is filmed, and where its bat is placed. */
export interface FollowedCase {
  readonly spec: SwingSpec;
  readonly framesPerSecond: number;
  /** Seconds for which the shutter is open, drawn as the mean of three instants; 0 = one instant. */
  readonly shutterSeconds: number;
  /** Seconds from contact at which the stretch begins; it ends at contact. */
  readonly fromSeconds: number;
  /** Frames from one placed frame to the next. */
  readonly framesApart: readonly number[];
}

/** One frame between placed ones: whether it was followed to it, and how far off. */
export interface FollowedTruth {
  readonly point: FollowedPoint;
  readonly framesPerSecond: number;
  readonly framesApart: number;
  readonly secondsFromContact: number;
  /** Pixels from one frame to the next, truly. */
  readonly speedPx: number;
  /** Pixels off, and each coordinate in the SD that is said; null where it did not hold. */
  readonly off: { readonly px: number; readonly inSds: readonly [number, number] } | null;
  /** Pixels off of the curve alone that it begins from. */
  readonly courseOffPx: number;
}

/** SD of the sensor's noise, grey values. */
const SENSOR_SD = 2.5;
/** Where a frame falls after its whole interval before contact. */
const PHASE = 0.37;

/** Follows the bat of drawn swings between frames that are placed with a person's noise, beside the truth of the 3-D body. */
export function followedPlaces({ spec, framesPerSecond, shutterSeconds, fromSeconds, framesApart }: FollowedCase): readonly FollowedTruth[] {
  const truth = truthOf(spec);
  const count = Math.floor(-fromSeconds * framesPerSecond);
  const seconds = Array.from({ length: count }, (_, i) => (i + 1 - count - PHASE) / framesPerSecond);
  const pictures = drawn(spec, seconds, shutterSeconds);
  const torsoPx = trueTorsoPx(truth);
  const placedSdPx = placedNoisePx(torsoPx);
  const ends = seconds.map((time) => truth.pointsAt(time));
  return framesApart.flatMap((apart) => {
    const random = seededRandom(`followed ${spec.seed} ${spec.view} ${framesPerSecond} ${apart}`);
    const noisy = ({ x, y }: { x: number; y: number }) => ({ x: x + placedSdPx * random.normal(), y: y + placedSdPx * random.normal() });
    const placed = new Map<number, BatEnds>();
    for (let frame = 0; frame < count; frame += apart) placed.set(frame, { knob: noisy(ends[frame]!.knob), tip: noisy(ends[frame]!.tip) });
    const found: FollowedTruth[] = [];
    for (let from = 0; from + apart < count; from += apart) {
      const hole = { from, to: from + apart, placed, placedSdPx, torsoPx, seconds };
      const course = batCourse(seconds, placed, from, from + apart);
      const pyramids = new Map(framesOf(hole).map((frame) => [frame, pyramidOf(cut(pictures[frame]!, lookedAt(course(frame), pictures[frame]!, 60)), PYRAMID_LEVELS)]));
      const places = followBat(hole, (frame) => pyramids.get(frame) ?? null);
      for (const frame of framesOf(hole).slice(1, -1)) {
        for (const point of FOLLOWED_POINTS) {
          const [actual, before] = [ends[frame]![point], ends[frame - 1]![point]];
          const own = places.find((it) => it.frame === frame && it.point === point);
          const expected = course(frame).ends[point]!;
          found.push({
            point, framesPerSecond, framesApart: apart, secondsFromContact: seconds[frame] ?? NaN, speedPx: Math.hypot(actual.x - before.x, actual.y - before.y),
            off: own ? { px: Math.hypot(own.x - actual.x, own.y - actual.y), inSds: [(own.x - actual.x) / own.sdPx, (own.y - actual.y) / own.sdPx] } : null,
            courseOffPx: Math.hypot(expected.x - actual.x, expected.y - actual.y),
          });
        }
      }
    }
    return found;
  });
}

/** Grey pictures of the swing at some times, with a shutter and a sensor's noise. */
function drawn(spec: SwingSpec, seconds: readonly number[], shutterSeconds: number): readonly GreyPicture[] {
  const painter = new Painter(spec);
  const random = seededRandom(`sensor ${spec.seed}`);
  const instants = shutterSeconds > 0 ? [-0.5, 0, 0.5] : [0];
  return seconds.map((time, frame) => {
    const values = new Float32Array(spec.widthPx * spec.heightPx);
    for (const share of instants) {
      const rgb = painter.paint(frame, time + share * shutterSeconds);
      for (let i = 0; i < values.length; i++) values[i]! += (0.2126 * rgb[3 * i]! + 0.7152 * rgb[3 * i + 1]! + 0.0722 * rgb[3 * i + 2]!) / instants.length;
    }
    return { widthPx: spec.widthPx, heightPx: spec.heightPx, values: Uint8ClampedArray.from(values, (value) => value + SENSOR_SD * random.normal()) };
  });
}

function cut({ widthPx, values }: GreyPicture, part: { leftPx: number; topPx: number; widthPx: number; heightPx: number }): GreyPicture {
  const own = new Uint8ClampedArray(part.widthPx * part.heightPx);
  for (let y = 0; y < part.heightPx; y++) own.set(values.subarray((y + part.topPx) * widthPx + part.leftPx, (y + part.topPx) * widthPx + part.leftPx + part.widthPx), y * part.widthPx);
  return { ...part, values: own };
}

/** How far following held over some frames. */
export interface FollowedSummary {
  readonly frames: number;
  readonly held: number;
  readonly medianPx: number;
  readonly p95Px: number;
  /** Share of coordinates within 1.96 of the SD that is said. */
  readonly coverage: number;
  readonly courseMedianPx: number;
  readonly courseP95Px: number;
}

export function summaryOf(all: readonly FollowedTruth[]): FollowedSummary {
  const offs = all.flatMap(({ off }) => off ?? []);
  const quantile = (values: readonly number[], share: number) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? NaN;
  const coordinates = offs.flatMap(({ inSds }) => inSds);
  const [px, coursePx] = [offs.map((it) => it.px), all.map((it) => it.courseOffPx)];
  return {
    frames: all.length, held: offs.length / all.length, medianPx: quantile(px, 0.5), p95Px: quantile(px, 0.95),
    coverage: coordinates.filter((value) => Math.abs(value) <= 1.96).length / coordinates.length, courseMedianPx: quantile(coursePx, 0.5), courseP95Px: quantile(coursePx, 0.95),
  };
}
