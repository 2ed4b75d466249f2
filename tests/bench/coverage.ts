/**
 * How well the stated doubt of every reading holds on drawn swings whose truth is known. Run: npx tsx tests/bench/coverage.ts
 * (--apart=3: points on every third frame only and beside the events, the rest worked out between them; --detail: also by rate, noise and camera; --quick: a seventh of the cases; --others: hitters that nothing was tuned on; --slopes: what a degree of camera does instead;
 * other words: only these checkpoints; --no-<checkpoint>: all but these). An asterisk marks what misses.
 */
import { cameraSlopes } from "@/tests/golden/camera-slopes";
import { markedCases } from "@/tests/golden/cases";
import { coverageByCheckpoint, type Coverage } from "@/tests/golden/coverage";
import { DEFINITIONS, heldReadings, type HeldReading } from "@/tests/golden/held-readings";

const flags = process.argv.slice(2);
const has = (flag: string) => flags.includes(flag);
const only = flags.filter((flag) => !flag.startsWith("--"));
const without = flags.filter((flag) => flag.startsWith("--no-")).map((flag) => flag.slice(5));
const percent = (share: number) => (Number.isNaN(share) ? "–" : (100 * share).toFixed(1));
const short = (value: number) => value.toPrecision(3);

/** The first seed of hitters on which no share or limit of the readings was chosen. */
const OTHER_HITTERS = 5000;

const GOAL = 0.93;
const TOO_WIDE = 0.97;
const ENOUGH_CASES = 1000;
/** Coverage of fewer readings than this is too uncertain to be called too wide. */
const ENOUGH_POINT_NOISE = 300;

const starred = (text: string, isMissed: boolean) => (isMissed ? `${text} *` : text);

function row({ id, cases, coverage, coverageOfSquare, biasInSd, medianSd, pointNoiseShare, coverageOfPointNoise }: Coverage): string {
  const isTooWide = coverageOfPointNoise > TOO_WIDE && pointNoiseShare * cases >= ENOUGH_POINT_NOISE;
  return `| ${[
    id, starred(String(cases), cases < ENOUGH_CASES), starred(percent(coverage), !(coverage >= GOAL)), starred(percent(coverageOfSquare), !(coverageOfSquare >= GOAL)),
    starred(biasInSd.toFixed(2), !(Math.abs(biasInSd) < 1 / 3)), short(medianSd), percent(pointNoiseShare), starred(percent(coverageOfPointNoise), isTooWide),
  ].join(" | ")} |`;
}

function table(title: string, readings: readonly HeldReading[], definitions: typeof DEFINITIONS): void {
  console.log(`\n${title}\n| checkpoint | cases | own camera | square camera | bias/SD | median SD | point noise leads in | own camera there |`);
  console.log("|---|---|---|---|---|---|---|---|");
  for (const line of coverageByCheckpoint(readings, definitions)) if (line.cases > 0) console.log(row(line));
}

function tally(title: string, list: readonly { readonly id: string; readonly say: string }[]): void {
  const counts = new Map<string, number>();
  for (const { id, say } of list) counts.set(`${id}: ${say}`, (counts.get(`${id}: ${say}`) ?? 0) + 1);
  console.log(`\n${title}: ${list.length}`);
  for (const [what, count] of [...counts].sort((a, b) => b[1] - a[1]).slice(0, 40)) console.log(`  ${count} × ${what}`);
}

if (has("--slopes")) {
  console.log("| checkpoint | view | cases | rms for a degree | 95th percentile / 1.96 | signed mean | rms at small, middle, large angles |\n|---|---|---|---|---|---|---|");
  for (const { id, view, cases, rms, p95, mean, rmsByThird } of cameraSlopes(34)) {
    console.log(`| ${[id, view, cases, short(rms), short(p95), short(mean), rmsByThird.map(short).join(", ")].join(" | ")} |`);
  }
} else {
  const start = performance.now();
  const many = has("--quick") ? { side: { 60: 1, 120: 1, 240: 1 }, front: { 60: 1, 120: 1, 240: 1 }, rear: { 60: 1, 120: 1, 240: 1 } }
    : { side: { 60: 3, 120: 5, 240: 16 }, front: { 60: 2, 120: 7, 240: 10 }, rear: { 60: 2, 120: 6, 240: 8 } };
  const framesApart = Number(flags.find((flag) => flag.startsWith("--apart="))?.slice(8) ?? 1);
  const cases = markedCases(34, many, has("--others") ? OTHER_HITTERS : undefined, framesApart);
  const definitions = only.length > 0 ? DEFINITIONS.filter(({ id }) => only.includes(id)) : DEFINITIONS.filter(({ id }) => !without.includes(id));
  const { held, missing, tooMany } = heldReadings(cases, definitions);
  table(`${cases.length} clips, ${held.length} readings of ${definitions.length} checkpoints; all in %, goal 93 or more, 97 or less where point noise leads`, held, definitions);
  if (has("--detail")) {
    for (const fps of [60, 120, 240]) table(`${fps} frames a second`, held.filter((one) => one.framesPerSecond === fps), definitions);
    table("noise as assumed", held.filter(({ noise }) => noise === "assumed"), definitions);
    table("noise that is not assumed", held.filter(({ noise }) => noise !== "assumed"), definitions);
    for (const [low, high] of [[0, 0], [1, 4], [4.5, 6], [7, 15]] as const) {
      table(`camera ${low} to ${high} degrees off`, held.filter(({ spec }) => Math.abs(spec.cameraOffDeg) >= low && Math.abs(spec.cameraOffDeg) <= high), definitions);
    }
  }
  tally("truth without a reading", missing);
  tally("reading without a truth", tooMany);
  console.log(`\n${((performance.now() - start) / 1000).toFixed(0)} s`);
}
