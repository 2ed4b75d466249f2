import { pointNoise } from "@/lib/measure/point-noise";
import { batCourse, type BatEnds } from "@/lib/measure/following/bat-course";
import { followBatInSteps, framesOf, lookedAt, PYRAMID_LEVELS, type FollowedPlace } from "@/lib/measure/following/follow-bat";
import { pyramidOf, type Pyramid } from "@/lib/measure/following/pyramid";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import type { FrameSource } from "../frame-source-type";
import type { BatHole } from "./bat-hole";
import { copySize, frameReady, greyPart } from "./grey-frames";

/** What the pictures are searched with. */
export interface Followable {
  readonly source: FrameSource;
  /** Width of the upright picture in which points are told. */
  readonly widthPx: number;
  readonly seconds: readonly number[];
  readonly bat: ReadonlyMap<number, BatEnds>;
  /** About how long the torso is in the upright picture; 0 when nothing says it. */
  readonly torsoPx: number;
}

/** So long at a time, so that stepping and dragging stay quick. */
const SLICE_MS = 6;
/** How far around the expected places a picture is looked at: torso lengths, and pixels of the copy at the least. */
const AROUND = { torsos: 0.6, leastPx: 60 } as const;

const turn = () => new Promise<void>((done) => setTimeout(done));

/**
 * Follows the bat over a stretch through the clip's own pictures, a slice of work at a time; places and SDs in pixels of the upright picture.
 * The pictures are read once each, in grey and around the bat only: ten million bytes at most for the whole stretch.
 * @returns null when the signal ended it; no places where it does not hold or pictures are missing
 */
export async function followInSlices(hole: BatHole, { source, widthPx, seconds, bat, torsoPx }: Followable, signal: AbortSignal): Promise<readonly FollowedPlace[] | null> {
  if (!(await frameReady(source, hole.from, signal))) return signal.aborted ? null : [];
  const size = copySize(source, hole.from);
  if (!size) return [];
  const scale = size.widthPx / widthPx;
  const placed = new Map([...bat].map(([frame, ends]) => [frame, Object.fromEntries(Object.entries(ends).map(([point, { x, y }]) => [point, { x: scale * x, y: scale * y }])) as BatEnds]));
  const own = { from: hole.from, to: hole.to, placed, placedSdPx: scale * pointNoise(STARTER_RULES.noise, torsoPx)("tip", false), torsoPx: scale * torsoPx, seconds };
  const course = batCourse(seconds, placed, hole.from, hole.to);
  const pyramids = new Map<number, Pyramid>();
  for (const frame of framesOf(hole)) {
    // Without one of the pictures the passes cannot meet.
    if (!(await frameReady(source, frame, signal))) return signal.aborted ? null : [];
    const grey = greyPart(source, frame, lookedAt(course(frame), size, Math.max(AROUND.leastPx, AROUND.torsos * own.torsoPx)));
    if (grey) pyramids.set(frame, pyramidOf(grey, PYRAMID_LEVELS));
    await turn();
  }
  const work = followBatInSteps(own, (frame) => pyramids.get(frame) ?? null);
  let sliceEnds = performance.now() + SLICE_MS;
  for (let step = work.next(); ; step = work.next()) {
    if (step.done) return step.value.filter(({ point }) => hole.points.includes(point)).map((it) => ({ ...it, x: it.x / scale, y: it.y / scale, sdPx: it.sdPx / scale, ownSdPx: it.ownSdPx / scale }));
    if (performance.now() < sliceEnds) continue;
    await turn();
    if (signal.aborted) return null;
    sliceEnds = performance.now() + SLICE_MS;
  }
}
