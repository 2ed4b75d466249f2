/**
 * How fast readings are taken: all of a whole clip with their doubt, and those that a dragged point changes; beside the plain way
 * (plain-resampling.ts), in turns in the same run. Run: npx tsx tests/bench/readings.ts
 */
import type { PlacedPoint } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { readClip } from "@/lib/measure/read-clip";
import { openReader } from "@/lib/measure/reread-clip";
import { VIEWS, swingSpec, type View } from "@/seed/media/spec";
import { DEFINITIONS } from "@/tests/golden/held-readings";
import { drawnSwing } from "@/tests/golden/hitters";
import { markedSwing } from "@/tests/golden/marked-swing";
import { resampledReadings } from "./plain-resampling";

const FRAMES_PER_SECOND = 240;
const CLIP_SECONDS = 3;
const ROUNDS = 15;
const PLAIN_ROUNDS = 3;
const PLAIN_DRAWS = 400;
const GOALS_MS = { clip: 25, drag: 2 };
/** Points that are dragged, and the event beside which. */
const DRAGS: Readonly<Record<View, readonly (readonly [PointId, number])[]>> = {
  side: [["tip", 0], ["kn_f", -0.19], ["hip_f", -0.1], ["wr_b", -0.15], ["sh_b", -0.9], ["an_f", 0.4], ["heel_b", -0.05]],
  front: [["hip_b", -0.19], ["sh_f", -0.15], ["toe_f", -0.19], ["tip", 0], ["el_b", -0.3], ["nose", 0]],
  rear: [["hip_b", -0.19], ["sh_f", -0.15], ["toe_b", -0.1], ["tip", 0], ["el_b", -0.3], ["wr_f", -0.12]],
};
const DRAG_STEPS = 8;

function milliseconds(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

const said = (values: readonly number[]) => `median ${quantile(values, 0.5).toFixed(2)} ms, 95th percentile ${quantile(values, 0.95).toFixed(2)} ms`;
const judged = (value: number, goal: number) => `${value < goal ? "within" : "ABOVE"} the goal of ${goal} ms`;

function bench(view: View): void {
  const swing = drawnSwing(swingSpec({ view, task: "toss", seed: 11, faults: { "front-leg-soft": 0.4 } }));
  const { stance, finish } = swing.events;
  const secondsBeforeStance = CLIP_SECONDS - (finish + 0.6) + stance + 2 / FRAMES_PER_SECOND;
  const { clip, swing: input } = markedSwing(swing, { framesPerSecond: FRAMES_PER_SECOND, contactPhase: 0.37, noiseSeed: `speed ${view}`, areEventsMissed: true, habit: "every-frame", secondsBeforeStance });
  const definitions = DEFINITIONS.filter(({ views }) => views.measured.includes(view));
  const frames = Object.keys(clip.points).length;
  const points = Object.values(clip.points).reduce((sum, own) => sum + Object.keys(own).length, 0);
  const taken = readClip(definitions, clip, input).filter(({ value }) => value !== null).length;
  console.log(`\n${view} view: ${frames} frames, ${points} points, ${definitions.length} checkpoints of which ${taken} have a value`);

  const [whole, dragged, plain]: number[][] = [[], [], []];
  const reader = openReader(definitions, clip, input);
  for (let round = 0; round < ROUNDS; round++) {
    whole?.push(milliseconds(() => readClip(definitions, clip, input)));
    for (const [point, seconds] of DRAGS[view]) {
      const frame = clip.secondsFromContact?.findIndex((time) => time >= seconds) ?? 0;
      let held = reader;
      for (let step = 1; step <= DRAG_STEPS; step++) {
        const from = clip.points[frame]?.[point] as PlacedPoint;
        const to: PlacedPoint = { ...from, x: from.x + 0.7 * step, y: from.y + 0.4 * step };
        dragged?.push(milliseconds(() => (held = held.moved(point, frame, to))));
      }
    }
    if (round < PLAIN_ROUNDS) plain?.push(milliseconds(() => resampledReadings(definitions.map(({ id }) => id), clip, input, PLAIN_DRAWS)));
  }
  const [wholeMs, dragMs, plainMs] = [whole, dragged, plain].map((values) => quantile(values ?? [], 0.5));
  console.log(`  whole clip       ${said(whole ?? [])}: ${judged(wholeMs ?? NaN, GOALS_MS.clip)}`);
  console.log(`  dragged point    ${said(dragged ?? [])}: ${judged(dragMs ?? NaN, GOALS_MS.drag)} (${DRAGS[view].map(([point]) => point).join(", ")}; ${dragged?.length ?? 0} moves)`);
  console.log(`  plain, ${PLAIN_DRAWS} draws  ${said(plain ?? [])}`);
  const isEnough = frames >= CLIP_SECONDS * FRAMES_PER_SECOND && points >= 20 * frames && taken >= 0.8 * definitions.length;
  if (!isEnough) console.log("  no ratio: the clip is shorter, has fewer points or gives fewer readings than the goal speaks of");
  else console.log(`  plain over whole ${((plainMs ?? NaN) / (wholeMs ?? NaN)).toFixed(1)}, plain over dragged ${((plainMs ?? NaN) / (dragMs ?? NaN)).toFixed(0)}`);
}

for (const view of VIEWS) bench(view);
