import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import type { Drill } from "@/lib/prescribe/drill";
import { cutAgainst } from "./day-cuts";
import { fitsOnDays, smallestUnfit } from "./fits-on-days";
import { elsewhereOn, WEEKDAYS, type DayCount, type WeekRequest } from "./request";

const { drills } = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../../seed/library/drills.json"), "utf8")) as { drills: Drill[] };
const like = drills.find(({ id }) => id === "mirror-load")!;

function randomCase(seed: number): { request: WeekRequest; choices: DayCount[][] } {
  const random = seededRandom(seed);
  const upTo = (most: number) => Math.floor(random.uniform() * (most + 1));
  const candidates = Array.from({ length: 5 }, (_, index) => ({
    drill: { ...like, id: `drill-${index}`, dose: { ...like.dose, minutes: 3 + upTo(6), fullSwings: upTo(2) > 0 ? 5 + upTo(25) : 0 } }, effect: (1 + upTo(19)) / 20, why: "",
  }));
  const request: WeekRequest = {
    candidates, minutesPerDay: 8 + upTo(10), daysPerWeek: 2 + upTo(2), order: "blocked", mostDrills: 3,
    caps: { perSession: 60, perDay: 40 + upTo(30), perWeek: 1000, homePerDay: 20 + upTo(30), noSwingDaysPerWeek: 2 + upTo(2) },
    elsewhere: [{ name: "team", weekdays: WEEKDAYS.filter(() => upTo(2) === 0), swingsEach: 10 + upTo(30) }],
  };
  const choices = Array.from({ length: 8 }, () => {
    const first = upTo(2);
    return candidates.slice(first, first + 2 + upTo(1)).map((candidate) => ({ candidate, days: 1 + upTo(request.daysPerWeek - 1) }));
  });
  return { request, choices };
}

/** Whether a choice lies on days, by trying every set of plan days, and in it every set of weekdays for every drill. */
function liesOnDays({ caps, elsewhere, minutesPerDay, daysPerWeek }: WeekRequest, choice: readonly DayCount[]): boolean {
  const others = WEEKDAYS.map((weekday) => elsewhereOn(elsewhere, weekday));
  const otherDays = others.filter((swings) => swings > 0).length;
  const bits = (set: number) => WEEKDAYS.filter((_, index) => set & (1 << index)).length;
  const all = Array.from({ length: 128 }, (_, set) => ({ set, days: bits(set) }));
  const planDays = all.filter(({ days }) => days === daysPerWeek).map(({ set }) => set);
  const holds = (placed: readonly number[]) => {
    const loads = WEEKDAYS.map((_, day) => placed.reduce((sum, set, index) => {
      const { minutes, fullSwings } = choice[index]!.candidate.drill.dose;
      return set & (1 << day) ? { minutes: sum.minutes + minutes, swings: sum.swings + fullSwings } : sum;
    }, { minutes: 0, swings: 0 }));
    const swingDays = loads.filter(({ swings }, day) => swings + others[day]! > 0).length;
    return swingDays <= Math.max(otherDays, 7 - caps.noSwingDaysPerWeek)
      && loads.every(({ minutes, swings }, day) => minutes <= minutesPerDay && (swings === 0 || (swings <= caps.homePerDay && swings <= caps.perSession && swings + others[day]! <= caps.perDay)));
  };
  const tried = (plan: number, placed: readonly number[]): boolean =>
    holds(placed) && (placed.length === choice.length || all.some(({ set, days }) => days === choice[placed.length]!.days && (set & ~plan) === 0 && tried(plan, [...placed, set])));
  return planDays.some((plan) => tried(plan, []));
}

const CASES = Array.from({ length: 60 }, (_, seed) => randomCase(seed));

it("a choice lies on days exactly when trying all of them finds some, and the part that is ruled out is unfit and smallest", { timeout: 60_000 }, () => {
  const count = { fit: 0, unfit: 0 };
  for (const { request, choices } of CASES) {
    for (const choice of choices) {
      const fits = fitsOnDays(request, choice);
      expect(fits).toBe(liesOnDays(request, choice));
      count[fits ? "fit" : "unfit"] += 1;
      if (fits) continue;
      const part = smallestUnfit(request, choice);
      expect(fitsOnDays(request, part)).toBe(false);
      part.forEach((one, at) => expect(fitsOnDays(request, part.map((other, index) => (index === at ? { ...one, days: one.days - 1 } : other)).filter(({ days }) => days > 0))).toBe(true));
    }
  }
  expect(Math.min(count.fit, count.unfit)).toBeGreaterThan(80);
});

it("a cut rules out the choice that it was made against and no choice that lies on days", { timeout: 60_000 }, () => {
  let [made, none] = [0, 0];
  for (const { request, choices } of CASES) {
    const weight = (cut: NonNullable<ReturnType<typeof cutAgainst>>, choice: readonly DayCount[]) => choice.reduce((sum, { candidate, days }) => sum + days * (cut.weights.get(candidate) ?? 0), 0);
    const fitting = choices.filter((choice) => fitsOnDays(request, choice));
    for (const choice of choices) {
      if (fitsOnDays(request, choice)) continue;
      const cut = cutAgainst(request, choice);
      if (!cut) {
        none += 1;
        continue;
      }
      made += 1;
      expect(weight(cut, choice)).toBeGreaterThan(cut.most);
      for (const other of fitting) expect(weight(cut, other)).toBeLessThanOrEqual(cut.most);
    }
  }
  // Nearly all are told by weights; the others are left to the smallest unfit part.
  expect(made).toBeGreaterThan(80);
  expect(none).toBeLessThan(made);
});
