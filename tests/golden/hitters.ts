import { ballOf } from "@/seed/media/ball";
import { cameraOf, project } from "@/seed/media/camera";
import { eventsOf, type SwingEvents } from "@/seed/media/events";
import { POINT_IDS, pointsOf } from "@/seed/media/points";
import { hitterOf } from "@/seed/media/skeleton";
import type { Projected } from "@/seed/media/readings";
import { hitterGrid, seenBy, type HitterGrid } from "@/seed/media/readings/hitter-grid";
import { TrueReadingsOf } from "@/seed/media/readings/true-readings";
import { BODIES, SIDES, swingSpec, type FaultAmounts, type SwingSpec } from "@/seed/media/spec";

const FAULTS: readonly FaultAmounts[] = [
  {}, { "no-back-hip-load": 0.7 }, { "stuck-on-back-leg": 0.6 }, { "lunge-forward": 0.8 }, { "back-foot-overspin": 0.8 }, {}, { "front-leg-soft": 0.7 },
  { "trunk-fold": 0.6 }, { "front-shoulder-opens": 0.7 }, { "lean-back": 0.6 }, { "back-elbow-no-load": 0.4 }, {}, { "lead-arm-bar": 0.6 }, { casting: 0.7 },
  { "hands-drift-forward": 0.8 }, { "barrel-drag": 0.6 }, { "late-start": 0.7 },
];

/** Hitters over which readings are held to the truth: every body and side, clean swings and most faults. @returns `count` specs */
export function goldenHitters(count: number, firstSeed = 100): readonly SwingSpec[] {
  return Array.from({ length: count }, (_, i) =>
    swingSpec({ side: SIDES[i % 2], body: BODIES[i % 3], seed: firstSeed + i, faults: FAULTS[i % FAULTS.length], task: i % 9 === 4 ? "tee" : "toss", framesPerSecond: 60 }));
}

/** The hitter of a spec before the spec's camera, worked out anew for every moment asked for: cheap where few are. */
export function drawnSwing(spec: SwingSpec): Omit<FilmedHitter, "truth"> {
  const hitter = hitterOf(spec);
  const camera = cameraOf(spec);
  const pointsAt = (time: number): Projected => {
    const world = pointsOf(hitter, hitter.poseAt(time));
    return Object.fromEntries(POINT_IDS.map((id) => [id, project(camera, world[id])])) as Projected;
  };
  return { spec, events: eventsOf(hitter), releaseSeconds: ballOf(spec, hitter).release, pointsAt };
}

/** A hitter before one camera: where its points are in the picture at any time of the clip, and what is true in it. */
export interface FilmedHitter {
  readonly spec: SwingSpec;
  readonly events: SwingEvents;
  readonly releaseSeconds: number | null;
  readonly pointsAt: (timeSeconds: number) => Projected;
  readonly truth: TrueReadingsOf;
}

const GRIDS = new Map<string, HitterGrid>();
const FILMED = new Map<string, FilmedHitter>();

/** The hitter of a spec before the spec's camera; the body is worked out once, and so is each camera's truth. */
export function filmedHitter(spec: SwingSpec): FilmedHitter {
  const { body, seed, faults, side, view, cameraOffDeg, widthPx, heightPx, task } = spec;
  const whose = JSON.stringify([body, seed, faults]);
  const key = JSON.stringify([whose, side, view, cameraOffDeg, widthPx, heightPx, task]);
  const known = FILMED.get(key);
  if (known) return known;
  const grid = GRIDS.get(whose) ?? hitterGrid({ ...spec, task: "toss" });
  GRIDS.set(whose, grid);
  const camera = cameraOf(spec);
  const pointsAt = (time: number) => Object.fromEntries(POINT_IDS.map((id) => [id, project(camera, grid.worldAt(id, time))])) as Projected;
  const filmed = { spec, events: grid.events, releaseSeconds: grid.releaseSeconds, pointsAt, truth: new TrueReadingsOf(seenBy(grid, spec)) };
  FILMED.set(key, filmed);
  return filmed;
}
