import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ageYears, isMinor, isYouth, levelOf, levelOfAge } from "./age";

describe("age", () => {
  it("a year is completed on the birthday and not a day before", () => {
    expect(ageYears("2013-06-15", "2026-06-14")).toBe(12);
    expect(ageYears("2013-06-15", "2026-06-15")).toBe(13);
  });

  it("whoever was born on a leap day completes a year on 29 February, or on 1 March where there is none", () => {
    expect(ageYears("2012-02-29", "2025-02-28")).toBe(12);
    expect(ageYears("2012-02-29", "2025-03-01")).toBe(13);
    expect(ageYears("2012-02-29", "2024-02-28")).toBe(11);
    expect(ageYears("2012-02-29", "2024-02-29")).toBe(12);
  });

  it("the day of birth is age 0, and a day before it is refused by name", () => {
    expect(ageYears("2026-01-02", "2026-01-02")).toBe(0);
    expect(() => ageYears("2026-01-02", "2026-01-01")).toThrow(/birth date 2026-01-02 lies after/);
  });

  it.each(["2025-02-29", "2025-13-01", "2025-00-10", "15.06.2013", "", "2025-6-1"])("%s is no day", (day) => {
    expect(() => ageYears(day, "2026-01-01")).toThrow(RangeError);
  });

  it("age never falls as days pass and rises by at most one from a day to the next", () => {
    const dayOf = (n: number) => new Date(Date.UTC(2000, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 6000 }), fc.integer({ min: 0, max: 6000 }), (birth, later) => {
        const today = ageYears(dayOf(birth), dayOf(birth + later));
        const tomorrow = ageYears(dayOf(birth), dayOf(birth + later + 1));
        expect(tomorrow - today === 0 || tomorrow - today === 1).toBe(true);
      }),
    );
  });
});

describe("levels", () => {
  it.each([
    [6, null, "8-10"], [8, null, "8-10"], [10, null, "8-10"], [11, null, "11-12"], [12, null, "11-12"],
    [13, null, "13-14"], [14, null, "13-14"], [15, null, "15-18"], [17, true, "15-18"], [18, null, "15-18"],
    [18, false, "15-18"], [18, true, "adult"], [19, null, "adult"], [19, false, "adult"], [61, null, "adult"],
  ] as const)("age %i with school left %s is level %s", (years, hasLeftSchool, level) => {
    expect(levelOfAge(years, hasLeftSchool)).toBe(level);
  });

  it("a level changes on the birthday", () => {
    expect(levelOf("2013-06-15", "2026-06-14")).toBe("11-12");
    expect(levelOf("2013-06-15", "2026-06-15")).toBe("13-14");
  });

  it("youth values hold under 13 and the adult rules under 18", () => {
    expect([isYouth(12), isYouth(13), isMinor(17), isMinor(18)]).toEqual([true, false, true, false]);
  });

  it("an age that is no whole number of years is refused", () => {
    for (const years of [-1, 9.5, NaN]) expect(() => levelOfAge(years)).toThrow(RangeError);
  });
});
