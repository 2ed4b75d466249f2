import fc from "fast-check";
import { expect, it } from "vitest";
import { fullSwingsOf, swingsNow, swingsOfLastWeek, type DaySwings } from "./rules";
import { elsewhereOf, elsewhereWords, weekdayWords } from "./view";

const CAPS = { perDay: 100, perWeek: 400 };
const row = (day: string, swings: number, source: DaySwings["source"] = "home"): DaySwings => ({ day, swings, source });

it("what is left of a day is the lesser of the day's cap and that of the seven days that end with it, over all sources", () => {
  expect(swingsNow([row("2026-11-25", 60), row("2026-11-25", 30, "team")], "2026-11-25", CAPS)).toMatchObject({ today: 90, left: 10 });
  const heavy = Array.from({ length: 6 }, (_, index) => row(`2026-11-${19 + index}`, 65, "team"));
  expect(swingsNow([...heavy, row("2026-11-25", 5)], "2026-11-25", CAPS)).toMatchObject({ today: 5, sevenDays: 395, left: 5, bySource: [{ source: "home", swings: 5 }, { source: "team", swings: 390 }] });
  // The seventh day back does not count any more, and tomorrow not yet.
  expect(swingsNow([row("2026-11-18", 400), row("2026-11-26", 400)], "2026-11-25", CAPS)).toMatchObject({ sevenDays: 0, left: 100 });
});

it("is never below nothing, and never more than a cap", () => {
  fc.assert(
    fc.property(fc.array(fc.record({ day: fc.integer({ min: 10, max: 28 }), swings: fc.nat(500) }), { maxLength: 20 }), (rows) => {
      const { left, today, sevenDays } = swingsNow(rows.map(({ day, swings }) => row(`2026-11-${day}`, swings)), "2026-11-25", CAPS);
      return left >= 0 && left + today <= Math.max(100, today) && left + sevenDays <= Math.max(400, sevenDays);
    }),
  );
});

it("the last week is homework as counted and each other source as written down, or as usual where nothing was", () => {
  const usual = [{ source: "team", weekdays: [2, 4], swingsEach: 30 }, { source: "games", weekdays: [6], swingsEach: 15 }] as const;
  expect(swingsOfLastWeek(80, [], usual)).toBe(155);
  expect(swingsOfLastWeek(80, [{ source: "team", swings: 20 }, { source: "team", swings: 5 }], usual)).toBe(120);
  expect(swingsOfLastWeek(0, [{ source: "lessons", swings: 40 }], [])).toBe(40);
});

it("an easy swing counts half, rounded up, a game without a count fifteen, anything else without a count nothing at all", () => {
  expect(fullSwingsOf({ source: "team", swings: 41, isEasy: true })).toEqual({ swings: 21, isGuess: false });
  expect(fullSwingsOf({ source: "games", swings: null, isEasy: false })).toEqual({ swings: 15, isGuess: true });
  expect(fullSwingsOf({ source: "lessons", swings: null, isEasy: false })).toBeNull();
});

it("a usual week is unknown until every source was asked for, and none is an answer", () => {
  const none = (source: "team" | "lessons" | "games") => ({ source, weekdays: [], swingsEach: 0 });
  expect(elsewhereOf([none("team"), none("lessons")])).toBeNull();
  expect(elsewhereWords([none("team")])).toBe("not asked yet");
  expect(elsewhereWords([none("team"), none("lessons"), none("games")])).toBe("none in a usual week");
  expect(elsewhereWords([{ source: "team", weekdays: [2, 4], swingsEach: 30 }, none("lessons"), none("games")])).toBe("team 2 × 30");
  expect(weekdayWords([1, 3, 5])).toBe("Monday, Wednesday and Friday");
});
