import { once } from "node:events";
import type { PointId } from "@/lib/measure/points";
import { chooseHitter } from "@/lib/measure/suggest-points/choose-hitter";
import { frontAndBack, type HitterPoints } from "@/lib/measure/suggest-points/front-and-back";
import type { SeenFrame } from "@/lib/measure/suggest-points/seen-body";
import { findBodies } from "@/lib/platform/pose/find-bodies";
import { Painter } from "@/seed/media/painter";
import { swingSpec, type SwingSpec } from "@/seed/media/spec";
import { truthOf, type SwingTruth } from "@/seed/media/truth";

/** A drawn picture: bytes, red, green, blue. */
export interface DrawnFrame {
  readonly frameIndex: number;
  readonly seconds: number;
  readonly bytes: Uint8Array;
}

/** Draws some frames of a swing, one at a time. */
export function* drawFrames(spec: SwingSpec, truth: SwingTruth, times: readonly number[]): Generator<DrawnFrame> {
  const painter = new Painter(spec);
  for (const time of times) {
    const frame = truth.frames.reduce((a, b) => (Math.abs(b.timeSeconds - time) < Math.abs(a.timeSeconds - time) ? b : a));
    yield { frameIndex: frame.index, seconds: frame.timeSeconds, bytes: painter.paint(frame.index, frame.timeSeconds) };
  }
}

/** Shows drawn pictures to the model. */
export async function lookAt(size: { width: number; height: number }, times: readonly number[], frames: Iterable<DrawnFrame>): Promise<{ frames: SeenFrame[]; ms: number[] }> {
  const shown: DrawnFrame[] = [];
  const answers = await findBodies({ ...size, seconds: times }, async (sink) => {
    for (const frame of frames) {
      shown.push({ ...frame, bytes: new Uint8Array() });
      if (!sink.write(frame.bytes)) await once(sink, "drain");
    }
  });
  return { frames: answers.map(({ bodies }, i) => ({ frameIndex: shown[i]?.frameIndex ?? 0, seconds: shown[i]?.seconds ?? 0, bodies })), ms: answers.map(({ ms }) => ms) };
}

/** One suggested point of a drawn hitter beside the truth. */
export interface PointError {
  readonly point: PointId;
  /** Suggested minus true, in torso lengths as the picture shows them at the stance. */
  readonly dx: number;
  readonly dy: number;
  readonly confidence: number;
}

/** A drawn swing, looked at by the model and told as a clip is. */
export async function suggestForDrawn(parts: Partial<SwingSpec>, times: readonly number[]): Promise<{ errors: PointError[]; points: readonly HitterPoints[]; torsoPx: number; ms: number[]; truth: SwingTruth }> {
  const spec = swingSpec({ framesPerSecond: 240, ...parts });
  const truth = truthOf(spec);
  const { frames, ms } = await lookAt({ width: spec.widthPx, height: spec.heightPx }, times, drawFrames(spec, truth, times));
  const hitter = chooseHitter(frames);
  const seen = frames.flatMap(({ frameIndex, seconds }) => {
    const body = hitter.get(frameIndex);
    return body ? [{ frameIndex, seconds, body }] : [];
  });
  const points = frontAndBack(seen, { view: spec.view, side: spec.side, mirrored: false });
  const torsoPx = torsoAt(truth, truth.frames[0]?.index ?? 0);
  return { errors: errorsOf(points, truth, torsoPx), points, torsoPx, ms, truth };
}

export function errorsOf(points: readonly HitterPoints[], truth: SwingTruth, torsoPx: number): PointError[] {
  return points.flatMap(({ frameIndex, points: own }) =>
    (Object.entries(own) as [PointId, { x: number; y: number; confidence: number }][]).map(([point, { x, y, confidence }]) => {
      const { picture } = trueFrame(truth, frameIndex).points[point];
      return { point, dx: (x - picture.x) / torsoPx, dy: (y - picture.y) / torsoPx, confidence };
    }),
  );
}

function trueFrame(truth: SwingTruth, frameIndex: number) {
  const frame = truth.frames[frameIndex];
  if (!frame) throw new RangeError(`no frame ${frameIndex}`);
  return frame;
}

export function torsoAt(truth: SwingTruth, frameIndex: number): number {
  const { sh_f: a, sh_b: b, hip_f: c, hip_b: d } = trueFrame(truth, frameIndex).points;
  return Math.hypot(a.picture.x + b.picture.x - c.picture.x - d.picture.x, a.picture.y + b.picture.y - c.picture.y - d.picture.y) / 2;
}
