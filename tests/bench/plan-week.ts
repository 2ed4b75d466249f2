// How long a week of homework takes over the whole library: npx tsx tests/bench/plan-week.ts
// For every fault of the library and players of all levels, with everything at hand and with little. Goal: under 1 s.
// On a busy machine the processor time is what counts: --seconds=20 lets every week come to its end. --quick takes a ninth.
import { readFileSync } from "node:fs";
import path from "node:path";
import { LEVELS } from "@/lib/core/age";
import { solveLinearModel } from "@/lib/platform/solver";
import { allowedDrills } from "@/lib/prescribe/allowed-drills";
import type { Drill, DrillPlayer, GearCatalogue } from "@/lib/prescribe/drill";
import { swingCaps, type SwingLimits } from "@/lib/prescribe/swing-load";
import { choiceModel } from "@/lib/prescribe/week/choose-drills";
import { planWeek } from "@/lib/prescribe/week/plan-week";
import { halfOf, type WeekRequest } from "@/lib/prescribe/week/request";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../seed/library/${name}.json`), "utf8"));
const drills: readonly Drill[] = read("drills").drills;
const faults: readonly { id: string }[] = read("faults").faults;
const catalogue: GearCatalogue = read("gear");
const limits: SwingLimits = read("loads").swings;
const AGES = { "8-10": 9, "11-12": 12, "13-14": 14, "15-18": 16, adult: 25 } as const;

function requestFor(level: (typeof LEVELS)[number], faultIds: readonly string[], isRich: boolean): WeekRequest {
  const player: DrillPlayer = {
    ageYears: AGES[level], level, sport: "baseball", isSlapper: false, complaints: [], causesWorkedOn: [], learnedDrills: [],
    gear: isRich ? catalogue.items.map(({ id }) => id) : ["bat", "tee", "net", "foam-ball", "tape", "towel", "helmet"],
    space: { widthM: 8, lengthM: isRich ? 25 : 8, hasCage: true }, partnerCount: isRich ? 2 : 0, adult: isRich ? "operates" : "nearby",
  };
  return {
    candidates: allowedDrills(drills, player, faultIds, catalogue).allowed, minutesPerDay: isRich ? 20 : 12, daysPerWeek: isRich ? 5 : 4,
    caps: swingCaps(level, AGES[level], limits), order: isRich ? "mixed" : "blocked", mostDrills: isRich ? 5 : 3,
    elsewhere: [{ name: "team", weekdays: [2, 4], swingsEach: 30 }],
  };
}

const everyFault = faults.map(({ id }) => id);
const requests = LEVELS.flatMap((level) => [
  ...everyFault.flatMap((fault) => [requestFor(level, [fault], false), requestFor(level, [fault], true)]),
  // The whole library at once, as no focus ever asks for it.
  requestFor(level, everyFault, true),
]).filter(({ candidates }) => candidates.length > 0);

const SECONDS = Number(process.argv.find((word) => word.startsWith("--seconds="))?.slice("--seconds=".length) ?? 1);

async function main(): Promise<void> {
  const sample = process.argv.includes("--quick") ? requests.filter((_, index) => index % 9 === 0 || index % 37 === 0) : requests;
  const taken: { ms: number; cpuMs: number; gap: number; candidates: number; columns: number }[] = [];
  let open = 0;
  await planWeek(requests[0]!, solveLinearModel, 20);
  for (const request of sample) {
    const from = performance.now();
    const cpu = process.cpuUsage();
    const week = await planWeek(request, solveLinearModel, SECONDS);
    const { user, system } = process.cpuUsage(cpu);
    if (week.gap > 0.05) open += 1;
    taken.push({ ms: performance.now() - from, cpuMs: (user + system) / 1000, gap: week.gap, candidates: request.candidates.length, columns: choiceModel({ ...request, candidates: [...request.candidates, ...request.candidates.flatMap((one) => halfOf(one) ?? [])] }).columns.length });
  }
  const at = (share: number, of: (one: (typeof taken)[number]) => number) => taken.map(of).sort((a, b) => a - b)[Math.min(taken.length - 1, Math.floor(share * taken.length))] ?? NaN;
  const line = (name: string, of: (one: (typeof taken)[number]) => number) => console.log(`${name}: median ${at(0.5, of).toFixed(0)}, 95 % ${at(0.95, of).toFixed(0)}, most ${at(1, of).toFixed(0)}`);
  console.log(`${sample.length} weeks of up to 7 days over ${drills.length} drills and ${faults.length} faults`);
  line("drills that may be taken", ({ candidates }) => candidates);
  line("yes-or-no columns", ({ columns }) => columns);
  line("milliseconds", ({ ms }) => ms);
  line("milliseconds of processor", ({ cpuMs }) => cpuMs);
  console.log(`proved best: ${taken.filter(({ gap }) => gap === 0).length}, with a gap: ${taken.filter(({ gap }) => gap > 0).length} (largest ${Math.max(0, ...taken.map(({ gap }) => gap || 0)).toFixed(4)}), more than 5 % from the best as far as was proved within ${SECONDS} s: ${open}`);
}

void main();
