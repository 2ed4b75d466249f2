import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sceneOf } from "@/lib/prescribe/scene";
import { drills } from "@/seed/library/drills.json";
import { countProblem, cropAround, helpWith, plannedDays, swingsFor, totalsOf, weekOf, type CountAsked } from "./rules";

const day = fc.integer({ min: 0, max: 20_000 }).map((n) => new Date(n * 86_400_000).toISOString().slice(0, 10));

describe("a week", () => {
  test("has seven days in order, begins on a Monday, and holds the day it is asked for", () => {
    fc.assert(
      fc.property(day, (asked) => {
        const week = weekOf(asked);
        expect(week).toHaveLength(7);
        expect(week).toContain(asked);
        expect(new Date(`${week[0]}T00:00:00Z`).getUTCDay()).toBe(1);
        expect([...week].sort()).toEqual(week);
        for (const other of week) expect(weekOf(other)).toEqual(week);
      }),
    );
  });

  test("runs over the end of a year", () => {
    expect(weekOf("2027-01-01")).toEqual(["2026-12-28", "2026-12-29", "2026-12-30", "2026-12-31", "2027-01-01", "2027-01-02", "2027-01-03"]);
  });
});

test.each([
  ["2026-11-25", "2026-12-08", 4, 8],
  ["2026-11-25", "2026-12-09", 4, 9],
  ["2026-11-25", "2026-11-26", 4, 2],
  ["2026-11-25", "2026-11-25", 1, 1],
])("a plan from %s to %s with %i days a week asks for %i days", (startsOn, endsOn, daysPerWeek, planned) => {
  expect(plannedDays({ startsOn, endsOn, daysPerWeek })).toBe(planned);
});

describe("totals", () => {
  const row = fc.record({ day, times: fc.integer({ min: 0, max: 500 }), swings: fc.integer({ min: 0, max: 500 }) });

  test("of a week are the sum of the totals of its days", () => {
    fc.assert(
      fc.property(fc.array(row), day, (rows, asked) => {
        const week = weekOf(asked);
        const days = week.map((one) => totalsOf(rows, one, one));
        expect(totalsOf(rows, week[0]!, week[6]!)).toEqual({
          days: days.reduce((sum, one) => sum + one.days, 0),
          times: days.reduce((sum, one) => sum + one.times, 0),
          swings: days.reduce((sum, one) => sum + one.swings, 0),
        });
      }),
    );
  });

  test("count a day once however many drills were done, and no day that was taken back", () => {
    const rows = [
      { day: "2026-11-24", times: 12, swings: 0 },
      { day: "2026-11-24", times: 18, swings: 18 },
      { day: "2026-11-25", times: 0, swings: 0 },
    ];
    expect(totalsOf(rows, "2026-11-23", "2026-11-29")).toEqual({ days: 1, times: 30, swings: 18 });
  });
});

test("swings of a count are the plan's share of it, and never fewer", () => {
  expect(swingsFor({ timesPerDay: 18, swingsPerDay: 18 }, 10)).toBe(10);
  expect(swingsFor({ timesPerDay: 12, swingsPerDay: 6 }, 7)).toBe(4);
  expect(swingsFor({ timesPerDay: 12, swingsPerDay: 0 }, 12)).toBe(0);
});

describe("a count", () => {
  const asked: CountAsked = {
    day: "2026-11-25", today: "2026-11-25", plan: { startsOn: "2026-11-20", endsOn: "2026-12-09", state: "sent" },
    hasPlayerLeft: false, isPaused: false, isSwing: true, timesBefore: 0, times: 18, swings: 18,
  };

  test("of a day within the plan, up to today, is kept", () => {
    expect(countProblem(asked)).toBeNull();
    expect(countProblem({ ...asked, day: "2026-11-20" })).toBeNull();
    expect(countProblem({ ...asked, times: 500, swings: 500 })).toBeNull();
  });

  test.each<[string, Partial<CountAsked>, RegExp]>([
    ["of tomorrow", { day: "2026-11-26" }, /still to come/],
    ["before the plan", { day: "2026-11-19" }, /had not begun/],
    ["after the plan", { day: "2026-12-10", today: "2026-12-11" }, /has ended/],
    ["over 500", { times: 501 }, /Up to 500/],
    ["over 500 swings", { swings: 501 }, /Up to 500/],
    ["of a plan that was replaced", { plan: { ...asked.plan, state: "ended" } }, /newer plan/],
    ["of a player who has left", { hasPlayerLeft: true }, /has left/],
    ["of swings while they are paused", { isPaused: true }, /Swings are paused/],
  ])("%s is refused in a sentence", (_name, change, sentence) => {
    expect(countProblem({ ...asked, ...change })).toMatch(sentence);
  });

  test("may go down while swings are paused, and body work may go on", () => {
    expect(countProblem({ ...asked, isPaused: true, timesBefore: 18, times: 10, swings: 10 })).toBeNull();
    expect(countProblem({ ...asked, isPaused: true, timesBefore: 18, times: 19, swings: 19 })).toMatch(/paused/);
    expect(countProblem({ ...asked, isPaused: true, isSwing: false })).toBeNull();
  });
});

describe("the crop of a still", () => {
  const size = fc.record({ widthPx: fc.integer({ min: 100, max: 4000 }), heightPx: fc.integer({ min: 100, max: 4000 }) });

  test("lies inside the picture, is 4 to 3, and holds every mark that fits", () => {
    fc.assert(
      fc.property(size, fc.array(fc.record({ u: fc.double({ min: 0.3, max: 0.7, noNaN: true }), v: fc.double({ min: 0.4, max: 0.6, noNaN: true }) })), ({ widthPx, heightPx }, places) => {
        const spots = places.map(({ u, v }) => ({ x: u * widthPx, y: v * heightPx }));
        const crop = cropAround(spots, widthPx, heightPx);
        expect(crop.width / crop.height).toBeCloseTo(4 / 3, 9);
        expect(Math.min(crop.x, crop.y)).toBeGreaterThanOrEqual(0);
        expect(crop.x + crop.width).toBeLessThanOrEqual(widthPx + 1e-6);
        expect(crop.y + crop.height).toBeLessThanOrEqual(heightPx + 1e-6);
        const span = (values: number[]) => (values.length > 0 ? Math.max(...values) - Math.min(...values) : Infinity);
        if (span(spots.map(({ x }) => x)) > crop.width || span(spots.map(({ y }) => y)) > crop.height) return;
        for (const { x, y } of spots) {
          expect(x).toBeGreaterThanOrEqual(crop.x - 1e-6);
          expect(x).toBeLessThanOrEqual(crop.x + crop.width + 1e-6);
          expect(y).toBeGreaterThanOrEqual(crop.y - 1e-6);
          expect(y).toBeLessThanOrEqual(crop.y + crop.height + 1e-6);
        }
      }),
    );
  });
});

test("every drill of the library says how to help and what to leave to the coach, and who feeds is told when", () => {
  for (const drill of drills) {
    const scene = sceneOf(drill as never);
    const { help, leave } = helpWith({ scene, isSwing: drill.dose.fullSwings > 0 });
    expect(help.length, drill.id).toBeGreaterThan(1);
    expect(leave).toContain("leave");
    if (drill.setup === "tee" || (drill.setup === "toss" && drill.partnerCount > 0)) expect(help[0], drill.id).toContain("when the bat is still");
  }
});
