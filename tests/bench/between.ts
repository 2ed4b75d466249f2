/**
 * How well the doubt of places worked out between placed frames holds on drawn hitters whose truth is known. Run:
 * npx tsx tests/bench/between.ts (--others: hitters that nothing was tuned on). An asterisk marks what misses.
 */
import { betweenPlaces, heldBetween } from "@/tests/golden/between-places";

/** The first seed of hitters on which no number of the doubt was chosen. */
const OTHER_HITTERS = 5000;
const GOAL = 0.93;

const isOthers = process.argv.includes("--others");
console.log("| kind of joint | coordinates | held, % | strays without noise, rms in T | said for that, rms in T |\n|---|---|---|---|---|");
for (const { key, count, held, strayRmsT, straySdT } of [...heldBetween(betweenPlaces(isOthers ? 12 : 17, [60, 120, 240], isOthers ? OTHER_HITTERS : undefined))].sort((a, b) => a.key.localeCompare(b.key))) {
  console.log(`| ${[key, count, `${(100 * held).toFixed(1)}${held < GOAL ? " *" : ""}`, strayRmsT.toFixed(5), straySdT.toFixed(5)].join(" | ")} |`);
}
