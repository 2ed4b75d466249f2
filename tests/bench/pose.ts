import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { isWeakSuggestion, widerInView } from "@/lib/measure/suggest-points/weak-suggestions";
import type { PointId } from "@/lib/measure/points";
import { BODIES, SIDES, VIEWS, type View } from "@/seed/media/spec";
import { suggestForDrawn, type PointError } from "../golden/drawn-bodies";

/**
 * How far off suggested points lie on drawn hitters, for which the truth is known, and how long a frame takes: per view and joint median and 95 % of
 * the distance in pixels and in torso lengths, the SD of one coordinate beside the one that readings assume, and how often front and back stay exchanged.
 * `--quick`: one hitter a view.
 */
async function main(): Promise<void> {
  const isQuick = process.argv.includes("--quick");
  const times = [...Array.from({ length: 8 }, (_, i) => -1 + i * 0.1), ...Array.from({ length: 22 }, (_, i) => -0.25 + i / 60)];
  for (const view of VIEWS) {
    const hitters = SIDES.flatMap((side) => BODIES.map((body, i) => ({ side, body, view, seed: 11 + 7 * i + (side === "left" ? 100 : 0) })));
    const runs = [];
    for (const parts of isQuick ? hitters.slice(0, 1) : hitters) runs.push(await suggestForDrawn(parts, times));
    const ms = runs.flatMap((run) => run.ms);
    const torso = runs.reduce((sum, { torsoPx }) => sum + torsoPx, 0) / runs.length;
    const exchanged = runs.flatMap((run) => run.points.flatMap((frame) => frame.exchanged)).length;
    console.log(`\n${view}: ${runs.length} hitters, ${ms.length} pictures of 1280 x 720, torso ${torso.toFixed(0)} px, found on ${runs.reduce((sum, { points }) => sum + points.length, 0)}; median ${quantile(ms, 0.5).toFixed(0)} ms, 95 % ${quantile(ms, 0.95).toFixed(0)} ms a picture; ${exchanged} groups put right`);
    console.log("joint     n   median px  95 % px  median T  95 % T  SD T  assumed  inside 2 SD");
    const errors = runs.flatMap((run) => run.errors);
    for (const joint of ["nose", "ear", "sh", "el", "wr", "hip", "kn", "an", "heel", "toe"]) console.log(line(joint, view, errors.filter(({ point, confidence }) => point.replace(/_[fb]$/, "") === joint && confidence >= 0.5), torso));
  }
}

function line(joint: string, view: View, errors: readonly PointError[], torso: number): string {
  const far = errors.map(({ dx, dy }) => Math.hypot(dx, dy));
  const sd = Math.sqrt(errors.reduce((sum, { dx, dy }) => sum + (dx * dx + dy * dy) / 2, 0) / errors.length);
  const assumed = (STARTER_RULES.noise.suggested[joint] ?? NaN) * widerInView(joint, view);
  const inside = errors.flatMap(({ dx, dy }) => [dx, dy]).filter((it) => Math.abs(it) <= 2 * assumed).length / (2 * errors.length);
  const weak = isWeakSuggestion((joint === "nose" ? joint : `${joint}_f`) as PointId, view) ? "  weak: never read" : "";
  return [joint.padEnd(5), String(errors.length).padStart(5), ...[quantile(far, 0.5) * torso, quantile(far, 0.95) * torso].map((it) => it.toFixed(1).padStart(10)), ...[quantile(far, 0.5), quantile(far, 0.95), sd, assumed].map((it) => it.toFixed(3).padStart(8)), `${(100 * inside).toFixed(0).padStart(6)} %${weak}`].join(" ");
}

function quantile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? NaN;
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
