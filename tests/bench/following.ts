/**
 * How far the bat is followed through the pictures of drawn swings, and how far off, beside the truth of the 3-D body. Run:
 * npx tsx tests/bench/following.ts (--others: hitters that no number was chosen on). About two minutes.
 */
import { followedPlaces, summaryOf, type FollowedTruth } from "@/tests/golden/followed-places";
import { BODIES, swingSpec, VIEWS } from "@/seed/media/spec";

const first = process.argv.includes("--others") ? 5100 : 41;
const all: FollowedTruth[] = [];
VIEWS.forEach((view, v) => {
  BODIES.forEach((body, b) => {
    const seed = first + 3 * v + b;
    const spec = swingSpec({ seed, body, view, side: (v + b) % 2 === 0 ? "right" : "left", task: b === 1 ? "tee" : "toss" });
    const rate = b === 2 ? 120 : 240;
    all.push(...followedPlaces({ spec, framesPerSecond: rate, shutterSeconds: b === 0 ? 1 / 500 : 1 / 1000, fromSeconds: -0.3, framesApart: [4, 6, 12, 18] }));
    process.stderr.write(".");
  });
});
console.error("");
console.log("| point | frames | held, % | off px, median, 95 % | 95 % interval holds, % | curve alone, px median, 95 % |\n|---|---|---|---|---|---|");
const row = (name: string, own: readonly FollowedTruth[]) => {
  const { frames, held, medianPx, p95Px, coverage, courseMedianPx, courseP95Px } = summaryOf(own);
  console.log(`| ${[name, frames, (100 * held).toFixed(0), `${medianPx.toFixed(1)}, ${p95Px.toFixed(1)}`, (100 * coverage).toFixed(1), `${courseMedianPx.toFixed(1)}, ${courseP95Px.toFixed(1)}`].join(" | ")} |`);
};
for (const point of ["knob", "tip"] as const) {
  const own = all.filter((it) => it.point === point);
  row(point, own);
  for (const apart of [4, 6, 12, 18]) row(`${point}, every ${apart}th frame placed`, own.filter((it) => it.framesApart === apart));
  for (const rate of [120, 240]) row(`${point}, ${rate} a second`, own.filter((it) => it.framesPerSecond === rate));
  for (const [low, high] of [[0, 5], [5, 12], [12, 25], [25, Infinity]] as const) row(`${point}, ${low} to ${high} px a frame`, own.filter((it) => it.speedPx >= low && it.speedPx < high));
}
