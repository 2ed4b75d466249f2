import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { levelOfAge } from "@/lib/core/age";
import { seededRandom } from "@/lib/core/random";
import { solveLinearModel } from "@/lib/platform/solver";
import { allowedDrills } from "../allowed-drills";
import { ADULT_RULES, BODY_PARTS, type Drill, type DrillPlayer, type GearCatalogue, type KeptDrill } from "../drill";
import { brokenLimits, LIMIT_IDS, type LimitId } from "../limits";
import { swingCaps, type SwingLimits } from "../swing-load";
import { planWeek } from "./plan-week";
import { elsewhereOn, WEEKDAYS, type WeekRequest } from "./request";
import { relaxations } from "./week-words";

type TestDrill = Drill & { readonly steps: readonly string[]; readonly safety: readonly string[] };
const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../../seed/library/${name}.json`), "utf8"));
const starter: readonly TestDrill[] = read("drills").drills;
const tee = starter.find(({ id }) => id === "no-stride-tee")!;
/** The starter drills, and one more for each limit that in them never stands alone. */
const drills: readonly TestDrill[] = [
  ...starter,
  { ...tee, id: "from-twelve", minAge: 12 },
  { ...tee, id: "not-while-afraid", avoidCauses: ["per-fear"] },
  { ...tee, id: "learned-first", requiresDrill: ["mirror-load"] },
  { ...tee, id: "softball-only", sport: "softball" },
  { ...tee, id: "in-a-cage", needsCage: true },
];
const faults: readonly string[] = read("faults").faults.map(({ id }: { id: string }) => id);
const catalogue: GearCatalogue = read("gear");
const limits: SwingLimits = read("loads").swings;
const allGear = catalogue.items.map(({ id }) => id);

/** A made-up player on a day: some have everything, most lack something. */
function randomPlayer(seed: number): { player: DrillPlayer; focus: string; request: Omit<WeekRequest, "candidates"> } {
  const random = seededRandom(seed);
  const upTo = (most: number) => Math.floor(random.uniform() * (most + 1));
  const oneOf = <T>(list: readonly T[]): T => list[upTo(list.length - 1)]!;
  const ageYears = oneOf([6, 7, 8, 9, 9, 10, 11, 12, 12, 13, 15, 17, 18, 25]);
  const level = levelOfAge(ageYears);
  const focus = upTo(2) === 0 ? oneOf(tee.faults).fault : oneOf(faults);
  const made: DrillPlayer = {
    ageYears, level, sport: oneOf(["baseball", "softball"]), isSlapper: upTo(3) === 0,
    gear: upTo(2) === 0 ? allGear : allGear.filter(() => upTo(9) < 8),
    space: upTo(2) === 0 ? { widthM: 2 + upTo(4), lengthM: 2 + upTo(20), hasCage: upTo(1) === 0 } : { widthM: 30, lengthM: 30, hasCage: true },
    partnerCount: upTo(2), adult: oneOf(ADULT_RULES), complaints: upTo(2) === 0 ? [oneOf(BODY_PARTS), "wrist"] : [],
    causesWorkedOn: upTo(3) === 0 ? ["per-fear"] : [], learnedDrills: [],
    season: oneOf([undefined, undefined, "in-season", "break"]), isPaused: upTo(7) === 0, forbiddenFocus: upTo(5) === 0 ? [focus] : [],
  };
  const request = {
    minutesPerDay: 5 + upTo(20), daysPerWeek: 1 + upTo(4), order: "blocked" as const, mostDrills: 3, caps: swingCaps(level, ageYears, limits, made.isPaused),
    elsewhere: [{ name: "team", weekdays: WEEKDAYS.filter(() => upTo(2) === 0), swingsEach: 10 * upTo(10) }],
  };
  // A focus from before the season keeps what it had: some of what serves it, with doses above and below the library's.
  const keptDrills = drills.filter(({ faults: serves }) => serves.some(({ fault }) => fault === focus)).filter(() => upTo(2) === 0)
    .map(({ id }) => ({ drillId: id, timesPerDay: 4 + upTo(26), minutesPerDay: 2 + upTo(8), swingsPerDay: upTo(30), daysPerWeek: 1 + upTo(4) }));
  return { player: seed % 4 === 3 ? { ...made, season: "in-season", keptDrills } : made, focus, request };
}

const PEOPLE = Array.from({ length: 3000 }, (_, seed) => randomPlayer(seed));
const isBodyWork = ({ setup }: Drill) => setup === "strength" || setup === "mobility";
const isOneHand = ({ steps, setup }: TestDrill) => setup === "tee" && /one[- ]hand|(top|bottom) hand only/i.test(steps.join(" "));
const isFed = ({ setup, gear }: Drill) => setup === "machine" || gear.includes("machine") || gear.includes("fed-ball");

const isAsKept = ({ id, dose }: Drill, kept: readonly KeptDrill[]) =>
  kept.some((one) => one.drillId === id && dose.sets * dose.reps <= one.timesPerDay && dose.minutes <= one.minutesPerDay && dose.fullSwings <= one.swingsPerDay);

/** What may never happen, said from the drill's own words and by no code of the limits. */
function dangers(drill: TestDrill, player: DrillPlayer): string[] {
  const { ageYears, complaints, adult, gear } = player;
  const isMinor = ageYears < 18;
  return [
    ...(isOneHand(drill) && (ageYears < 11 || complaints.includes("wrist")) ? ["one hand"] : []),
    ...(isFed(drill) && isMinor && adult !== "operates" ? ["machine or thrower without an adult who works it"] : []),
    ...((drill.setup === "live" || drill.setup === "machine") && isMinor && adult !== "operates" && adult !== "in-charge" ? ["pitched at with no adult"] : []),
    ...(drill.adult === "in-charge" && isMinor && adult !== "operates" && adult !== "in-charge" ? ["adult runs it"] : []),
    ...(player.keptDrills && !isAsKept(drill, player.keptDrills) ? ["not what it had before the season, or more of it"] : []),
    ...(drill.minAge > Math.max(8, ageYears) ? ["too young"] : []),
    ...(drill.avoidParts.some((part) => complaints.includes(part)) ? ["complaint"] : []),
    ...(player.isPaused && !isBodyWork(drill) ? ["paused"] : []),
    ...(player.season === "break" && !isBodyWork(drill) ? ["break"] : []),
    ...(drill.helmet && !gear.includes("helmet") ? ["no helmet"] : []),
    ...(drill.gear.includes("screen") && !gear.includes("screen") && !gear.includes("fine-mesh-screen") ? ["no screen"] : []),
    ...(drill.spaceM.w * drill.spaceM.l > player.space.widthM * player.space.lengthM ? ["no room"] : []),
    ...(ageYears < 8 && (drill.setup === "live" || drill.setup === "machine" || drill.setup === "throw") ? ["under 8"] : []),
  ];
}

it("no random player is ever offered a drill that may harm, and every hard limit would be broken often if it were not there", { timeout: 60_000 }, () => {
  const wouldBreak = new Map<LimitId, number>(LIMIT_IDS.map((id) => [id, 0]));
  const harmful: object[] = [];
  let larger = 0;
  for (const { player, focus } of PEOPLE) {
    const { allowed, leftOut } = allowedDrills(drills, player, [focus], catalogue);
    for (const { drill } of allowed) for (const danger of dangers(drill, player)) harmful.push({ drill: drill.id, danger, player });
    // The library's own dose would have been more than before the season.
    larger += Number(allowed.some(({ drill }) => player.keptDrills && !isAsKept(drills.find(({ id }) => id === drill.id) ?? drill, player.keptDrills)));
    // Offered but for this one limit: without it this player would get the drill.
    const alone = new Set(leftOut.flatMap(({ limits: broken }) => (broken.length === 1 && broken[0] ? [broken[0].id] : [])));
    for (const id of alone) wouldBreak.set(id, (wouldBreak.get(id) ?? 0) + 1);
  }
  expect(harmful).toEqual([]);
  console.info(`of ${PEOPLE.length} random players would break a limit if it were absent: ${[...wouldBreak].map(([id, count]) => `${id} ${count}`).join(", ")}; a larger dose in season ${larger}`);
  expect(larger).toBeGreaterThan(0);
  expect([...wouldBreak].filter(([, count]) => count === 0).map(([id]) => id)).toEqual([]);
});

it("the week that is proposed keeps the caps over all sources, and each cap would be broken without it", { timeout: 120_000 }, async () => {
  const wouldBreak = { day: 0, week: 0, minutes: 0, swingDays: 0 };
  let planned = 0;
  for (const { player, focus, request } of PEOPLE.slice(0, 60)) {
    const { allowed } = allowedDrills(drills, player, [focus], catalogue);
    const week = await planWeek({ ...request, candidates: allowed }, solveLinearModel, 60);
    planned += Number(week.drills.length > 0);
    const { caps, elsewhere } = request;
    const home = (weekday: number, list: readonly { drill: Drill; weekdays: readonly number[] }[]) =>
      list.filter(({ weekdays }) => weekdays.includes(weekday)).reduce((sum, { drill }) => sum + drill.dose.fullSwings, 0);
    const chosen = week.drills.map(({ candidate, weekdays }) => ({ drill: candidate.drill, weekdays }));
    for (const { candidate } of week.drills) expect(brokenLimits(candidate.drill, player, catalogue)).toEqual([]);
    // Everything that may be done, on as many days as there are: what a plan without caps would be.
    const all = allowed.map(({ drill }) => ({ drill, weekdays: WEEKDAYS.slice(0, request.daysPerWeek) }));
    let [sum, allSum] = [0, 0];
    for (const weekday of WEEKDAYS) {
      const other = elsewhereOn(elsewhere, weekday);
      const [own, full] = [home(weekday, chosen), home(weekday, all)];
      if (own > 0) expect(own + other).toBeLessThanOrEqual(caps.perDay);
      expect(own).toBeLessThanOrEqual(Math.min(caps.homePerDay, caps.perSession));
      sum += own;
      allSum += full + other;
      wouldBreak.day += Number(full > Math.min(caps.homePerDay, caps.perSession, Math.max(0, caps.perDay - other)));
    }
    const others = WEEKDAYS.reduce((so, weekday) => so + elsewhereOn(elsewhere, weekday), 0);
    if (sum > 0) expect(sum + others).toBeLessThanOrEqual(caps.perWeek);
    wouldBreak.week += Number(allSum > caps.perWeek);
    wouldBreak.minutes += Number(all.reduce((so, { drill }) => so + Math.ceil(drill.dose.minutes), 0) > request.minutesPerDay);
    wouldBreak.swingDays += Number(WEEKDAYS.filter((weekday) => home(weekday, all) + elsewhereOn(elsewhere, weekday) > 0).length > 5);
  }
  console.info(`of 60 weeks would break a cap if it were absent: ${JSON.stringify(wouldBreak)}; ${planned} held a drill`);
  expect(Math.min(...Object.values(wouldBreak))).toBeGreaterThan(0);
  expect(planned).toBeGreaterThan(25);
});

it("when nothing fits it is said what would let drills in, and never a limit of safety", { timeout: 60_000 }, () => {
  let said = 0;
  for (const { player, focus, request } of PEOPLE.slice(0, 600)) {
    const serving = drills.filter((drill) => drill.faults.some(({ fault }) => fault === focus));
    const bare: DrillPlayer = { ...player, gear: [], space: { widthM: 0.5, lengthM: 0.5, hasCage: false } };
    for (const who of [player, bare]) {
      const found = relaxations(serving, who, catalogue, { ...request, candidates: [] });
      for (const { words, drills: count } of found) {
        expect(words).toMatch(/^(With |If this is met|This stands: )/);
        if (count > 0) expect(words).not.toMatch(/complaint|paused|age \d|under 8/i);
        said += 1;
      }
    }
  }
  expect(said).toBeGreaterThan(600);
});
