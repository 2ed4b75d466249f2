import fc from "fast-check";
import { expect, it } from "vitest";
import { goesOutAt, hourWords, isOpenAt, USUAL_HOURS, whenWords } from "./rules";

const CHICAGO = "America/Chicago";
const goes = (instant: string, hours = USUAL_HOURS, zone = CHICAGO) => goesOutAt(new Date(instant), hours, zone).toISOString();

it("what is written within the hours goes at once; the hour at which they end is quiet already", () => {
  expect(goes("2026-11-25T14:00:00.000Z")).toBe("2026-11-25T14:00:00.000Z");
  expect(goes("2026-11-26T01:59:59.000Z")).toBe("2026-11-26T01:59:59.000Z");
  expect(goes("2026-11-26T02:00:00.000Z")).toBe("2026-11-26T14:00:00.000Z");
  expect(goes("2026-11-26T13:59:59.000Z")).toBe("2026-11-26T14:00:00.000Z");
});

it("eight is eight by the clock on the wall, on the night on which it is put forward or back", () => {
  // The clocks go forward on 8 March 2026 and back on 1 November 2026: an hour less, an hour more in the night.
  expect(goes("2026-03-08T04:00:00.000Z")).toBe("2026-03-08T13:00:00.000Z");
  expect(goes("2026-11-01T03:00:00.000Z")).toBe("2026-11-01T14:00:00.000Z");
  // An opening that the clock leaves out begins with the first instant after it; one that comes twice begins the first time.
  expect(goes("2026-03-08T07:30:00.000Z", { opensHour: 2, closesHour: 20 })).toBe("2026-03-08T08:00:00.000Z");
  expect(goes("2026-11-01T05:30:00.000Z", { opensHour: 1, closesHour: 20 })).toBe("2026-11-01T06:00:00.000Z");
});

it("is never before it was written, always within the hours, and at most a day and an hour later", () => {
  const zones = [CHICAGO, "Europe/Berlin", "Asia/Kathmandu", "Australia/Lord_Howe", "America/St_Johns", "Pacific/Apia"];
  const hours = fc.tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 1, max: 24 })).filter(([a, b]) => a < b);
  fc.assert(
    fc.property(fc.date({ min: new Date("2025-01-01"), max: new Date("2028-01-01"), noInvalidDate: true }), hours, fc.constantFrom(...zones), (written, [opensHour, closesHour], zone) => {
      // Hours that fall whole into a night's gap do not open on that day.
      fc.pre(closesHour - opensHour > 1);
      const at = goesOutAt(written, { opensHour, closesHour }, zone);
      expect(isOpenAt(at, { opensHour, closesHour }, zone)).toBe(true);
      expect(at.getTime()).toBeGreaterThanOrEqual(written.getTime());
      expect(at.getTime() - written.getTime()).toBeLessThanOrEqual(25 * 3_600_000);
    }),
    { numRuns: 400 },
  );
});

it("says hours and days as people do", () => {
  expect([0, 8, 12, 20, 24].map(hourWords)).toEqual(["midnight", "8 AM", "noon", "8 PM", "midnight"]);
  const now = new Date("2026-11-26T03:00:00.000Z");
  expect(whenWords(new Date("2026-11-26T14:00:00.000Z"), now, CHICAGO)).toBe("8:00 AM tomorrow");
  expect(whenWords(new Date("2026-11-26T14:00:00.000Z"), new Date("2026-11-26T13:00:00.000Z"), CHICAGO)).toBe("8:00 AM today");
});
