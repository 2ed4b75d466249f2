/**
 * How well the stated doubt of each reading holds on synthetic swings whose truth is known: share of true values inside
 * value ± 1.96 SD, bias in SDs, median SD. Once with events on the frame nearest to the truth, once with events missed
 * by as much as people miss them. Run: npx tsx tests/bench/coverage.ts
 */
import { coverageByCheckpoint, goldenSpecs, heldReadings } from "@/tests/golden/coverage";

const HITTERS = 65;
const specs = goldenSpecs(HITTERS);
const TABLES = [
  ["events on their nearest frames, points as far around them as their doubt reaches", {}],
  ["events missed by a person's SD", { areEventsMissed: true }],
  ["points on the frames beside the events only, events missed", { areEventsMissed: true, habit: "beside" }],
  ["the bat also marked after contact, across the picture", { isBatMarkedAcross: true }],
] as const;
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
for (const [title, marking] of TABLES) {
  console.log(`\n${HITTERS} hitters: ${title}`);
  console.log("| Checkpoint | cases | coverage | bias/SD | median SD | coverage, camera on the line |");
  console.log("|---|---|---|---|---|---|");
  for (const { id, cases, coverage, biasInSd, medianSd, coverageOfSquare } of coverageByCheckpoint(heldReadings(specs, marking))) {
    console.log(`| ${id} | ${cases} | ${percent(coverage)} | ${biasInSd.toFixed(2)} | ${medianSd.toPrecision(3)} | ${percent(coverageOfSquare)} |`);
  }
}
