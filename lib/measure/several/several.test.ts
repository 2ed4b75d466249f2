import fc from "fast-check";
import { median, medianAbsoluteDeviation, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { cameraPartOfDifference } from "@/lib/measure/several/camera-part";
import { changeBetween } from "@/lib/measure/several/change";
import { comparableSwings, STARTER_COMPARABLE, type SwingOnDay } from "@/lib/measure/several/comparable-swings";
import { beforeAndNow, likeForLike } from "@/lib/measure/several/like-for-like";
import { middleAndSpread } from "@/lib/measure/several/middle-and-spread";
import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { seenCount, seenWords } from "@/lib/measure/several/seen-count";
import { severalNotes, changeWords, usualWords } from "@/lib/measure/several/several-words";
import { severalSwings } from "@/lib/measure/several/summary";
import { twoSets } from "@/lib/measure/several/two-sets";
import { typicalErrorOfPairs, typicalErrorOfSets } from "@/lib/measure/several/typical-error";
import { isUnknown } from "@/lib/measure/several/unknown";
import terms from "@/seed/library/terms.json";

const band = { ok: [10, 20], act: [5, 25] } as const;
let count = 0;
const reading = (value: number | null, given: Partial<RepeatedReading> = {}): RepeatedReading => ({
  swingId: `s${count++}`, day: "2026-11-20", value, sd: value === null ? null : 0.5, sdCamera: 0, setUp: "a", isCameraKnown: true, verdict: "fine", deviation: null, isGrey: false, ...given,
});
const set = (values: readonly number[], given: Partial<RepeatedReading> = {}) => values.map((value) => reading(value, given));
const swing = (id: string, given: Partial<SwingOnDay> = {}): SwingOnDay => ({
  id, day: "2026-11-20", playerId: "p", side: "right", swingKind: "power", task: "tee", effort: "practice", pitchHeight: "belt", pitchSide: "middle", pitchSpeed: "unknown",
  batClass: "usual", ...given,
});

describe("swings that may be compared", () => {
  it("the starter's rule is the library's", () => {
    expect(terms.comparableRule).toMatchObject(STARTER_COMPARABLE);
  });
  it("N23: a tee and a thrown ball, or another pitch height, are not alike, and both are named", () => {
    const { isAlike, unlike } = likeForLike(swing("a"), swing("b", { task: "toss", pitchHeight: "high" }), STARTER_COMPARABLE.same);
    expect(isAlike).toBe(false);
    expect(unlike.map(beforeAndNow)).toEqual(["Off a tee before, at a tossed ball now", "At a belt-high ball before, at a high ball now"]);
    expect(unlike.map(({ reasonId }) => reasonId)).toEqual(["different-task", "different-pitch"]);
  });
  it("another player or side is never alike, whatever the rule says; an unlisted fact does not part swings", () => {
    expect(likeForLike(swing("a"), swing("b", { playerId: "q" }), []).isAlike).toBe(false);
    expect(likeForLike(swing("a"), swing("b", { side: "left" }), []).isAlike).toBe(false);
    expect(likeForLike(swing("a"), swing("b", { effort: "game" }), STARTER_COMPARABLE.same).isAlike).toBe(true);
    expect(likeForLike(swing("a"), swing("b", { effort: "game" }), [...STARTER_COMPARABLE.same, "effort"]).isAlike).toBe(false);
  });
  it("an unknown fact agrees only with the same unknown, and is then called not noted", () => {
    const unknown = swing("a", { pitchHeight: "unknown" });
    expect(likeForLike(unknown, swing("b"), STARTER_COMPARABLE.same).isAlike).toBe(false);
    expect(likeForLike(unknown, { ...unknown }, STARTER_COMPARABLE.same)).toMatchObject({ isAlike: true, notNoted: ["pitchHeight"] });
  });
  it("the swing itself is always among them, newest first, and those of another time are left out without a word", () => {
    const own = swing("own", { day: "2026-11-10" });
    const list = [swing("later", { day: "2026-11-20" }), swing("same-day", { day: "2026-11-10" }), own, swing("toss", { day: "2026-11-09", task: "toss" }), swing("old", { day: "2026-09-11" }), swing("older", { day: "2026-09-10" })];
    const found = comparableSwings(own, list, STARTER_COMPARABLE, 12);
    expect(found.alike.map(({ id }) => id)).toEqual(["same-day", "own", "old"]);
    expect(found.leftOut).toMatchObject([{ count: 1, unlike: { fact: "task", theirs: "at a tossed ball", ours: "off a tee" } }]);
    expect(comparableSwings(own, list, STARTER_COMPARABLE, 1).alike.map(({ id }) => id)).toEqual(["own"]);
  });
});

describe("k of n", () => {
  const talk = (deviation: "low" | "high" = "high") => reading(30, { verdict: "talk-about", deviation });
  it("N53: three of five are said, and are a habit", () => {
    const found = seenCount([talk(), reading(15), talk(), reading(16), talk()]);
    expect(found).toMatchObject({ seen: 3, judged: 5, unknown: 0, side: "high", isHabit: true });
    expect(seenWords(found)).toBe("3 of 5 swings: a habit");
  });
  it("N53: one swing, or two, are never a habit", () => {
    for (const few of [[talk()], [talk(), talk()]]) {
      expect(seenCount(few).isHabit).toBe(false);
      expect(seenWords(seenCount(few))).not.toContain("habit");
    }
    expect(() => seenCount([talk()], { seenAtLeast: 1, ofLast: 5 })).toThrow(RangeError);
  });
  it("what could not be judged is counted apart and never as not seen; older swings take its place", () => {
    const dark = reading(null, { verdict: null });
    expect(seenCount([talk(), dark, reading(15), reading(40, { isGrey: true, verdict: null }), talk(), reading(15, { verdict: "cannot-tell" })])).toMatchObject({ seen: 2, judged: 3, unknown: 3 });
    const six = [talk(), dark, reading(15), reading(15), reading(15), talk(), dark, dark];
    expect(seenCount(six)).toMatchObject({ seen: 2, judged: 5, unknown: 1 });
  });
  it("beyond one end and beyond the other are two things and are not added up", () => {
    expect(seenCount([talk("low"), talk("high"), talk("low"), talk("high"), reading(15)])).toMatchObject({ seen: 2, isHabit: false });
  });
});

describe("middle and spread", () => {
  it("agree with a general library", () => {
    fc.assert(fc.property(fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 10, maxLength: 20 }), (values) => {
      const found = middleAndSpread(values);
      if (isUnknown(found)) throw new Error(found.unknown);
      expect(found.median).toBeCloseTo(median(values), 9);
      expect(found.plainSd).toBeCloseTo(sampleStandardDeviation(values), 9);
      expect(found.robustSd).toBeCloseTo(1.4826 * (values.length / (values.length - 0.8)) * medianAbsoluteDeviation(values), 9);
    }));
  });
  it.each([3, 4, 5, 7, 12])("the robust spread of %d normal values is their SD on average", (n) => {
    const random = seededRandom(`robust ${n}`);
    let sum = 0;
    const rounds = 4000;
    for (let i = 0; i < rounds; i++) {
      const found = middleAndSpread(Array.from({ length: n }, () => random.normal()));
      sum += isUnknown(found) ? NaN : found.robustSd;
    }
    expect(Math.abs(sum / rounds - 1)).toBeLessThan(0.04);
  });
  it("one swing that stands apart moves the plain spread and hardly the robust one", () => {
    expect(middleAndSpread([10, 10.2, 9.9, 10.1, 18])).toMatchObject({ median: 10.1, standsApart: true });
    expect(middleAndSpread([10, 10.2, 9.9, 10.1, 10.3])).toMatchObject({ standsApart: false });
  });
  it("one value has no spread", () => expect(isUnknown(middleAndSpread([3, NaN]))).toBe(true));
  it("the typical error of pairs does not count a shift of all second values, and sets of one say nothing", () => {
    const pairs = [[1, 2], [3, 5], [4, 4]] as const;
    const shifted = pairs.map(([a, b]) => [a, b + 100] as const);
    expect(typicalErrorOfPairs(shifted)).toMatchObject({ sd: expect.closeTo((typicalErrorOfPairs(pairs) as { sd: number }).sd, 9) });
    expect(isUnknown(typicalErrorOfSets([[1], [2]]))).toBe(true);
    expect(typicalErrorOfSets([[1, 3], [10, 12]])).toMatchObject({ sd: Math.SQRT2, freedom: 2 });
  });
});

describe("changed, within the usual spread, or cannot tell", () => {
  const before = set([22, 23, 24], { day: "2026-11-01" });
  it("a difference beyond 1.96 SD of the difference is a change, said with its direction", () => {
    const found = changeBetween(before, set([14, 15, 16]), { band });
    expect(found).toMatchObject({ word: "changed", direction: "toward", difference: -8, isSameDay: false });
    expect(found.detectable).toBeCloseTo(1.96 * Math.sqrt(2 / 3), 9);
    expect(changeBetween(set([12, 13, 12]), set([17, 18, 17]), { band }).direction).toBe("inside");
    expect(changeBetween(set([17, 18, 17]), set([27, 28, 27]), { band }).direction).toBe("away");
  });
  it("less than that, where a change that matters would have shown, is the usual spread", () => {
    expect(changeBetween(before, set([22.5, 23.5, 23]), { band }).word).toBe("usual-spread");
  });
  it("less than that, where it would not have shown, cannot be told", () => {
    expect(changeBetween(set([10, 20, 30]), set([12, 25, 28]), { band }).word).toBe("cannot-tell");
  });
  it("fewer than three swings on a side, or unlike swings, cannot be told, and say why", () => {
    expect(changeBetween(before.slice(1), set([1, 1, 1]), { band })).toMatchObject({ word: "cannot-tell", because: "only 2 swings that could be compared before, it takes 3" });
    expect(changeBetween(before, [...set([1, 1]), reading(null), reading(1, { isGrey: true })], { band }).word).toBe("cannot-tell");
    expect(changeBetween(before, set([1, 1, 1]), { band, unlike: ["off a tee before, tossed now"] })).toMatchObject({ word: "cannot-tell", because: "off a tee before, tossed now" });
  });
  it("the spread is never less than the readings' own doubt", () => {
    const sure = changeBetween(set([10, 10, 10]), set([11, 11, 11]), { band });
    expect(sure.differenceSd).toBeCloseTo(0.5 * Math.sqrt(2 / 3), 9);
  });
  it("what the camera adds falls out of two sets from one set-up and stays in two from different ones", () => {
    const [a, b] = [set([1, 1, 1], { setUp: "a", sdCamera: 2 }), set([1, 1, 1], { setUp: "b", sdCamera: 1 })];
    expect(cameraPartOfDifference(a, set([1, 1], { setUp: "a", sdCamera: 2 }))).toBe(0);
    expect(cameraPartOfDifference(a, b)).toBeCloseTo(Math.sqrt(5), 12);
    expect(cameraPartOfDifference(set([1], { setUp: null, sdCamera: 2 }), set([1], { setUp: null, sdCamera: 2 }))).toBeCloseTo(Math.sqrt(8), 12);
    expect(changeBetween(a, set([3, 3, 3], { setUp: "a", sdCamera: 2 }), { band }).word).toBe("changed");
    expect(changeBetween(a, set([3, 3, 3], { setUp: "b", sdCamera: 2 }), { band }).word).not.toBe("changed");
  });
  it("sets from different set-ups say when nobody knows where the camera stood; sets from one need not", () => {
    const dark = { isCameraKnown: false };
    expect(changeBetween(before, set([14, 15, 16], { ...dark, setUp: "b" }), { band }).isCameraLeftOut).toBe(true);
    expect(changeBetween(set([22, 23, 24], dark), set([14, 15, 16], dark), { band }).isCameraLeftOut).toBe(false);
    expect(severalNotes(severalSwings([...set([15, 16, 14], { ...dark, setUp: "b" }), ...set([22, 23, 24])], { band })).join()).toContain("camera");
  });
  it("swapped sets change the sign and nothing else", () => {
    const values = fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { minLength: 3, maxLength: 6 });
    fc.assert(fc.property(values, values, (first, second) => {
      const [there, back] = [changeBetween(set(first), set(second), { band }), changeBetween(set(second), set(first), { band })];
      expect(there.word).toBe(back.word);
      expect(there.difference ?? NaN).toBeCloseTo(-(back.difference ?? NaN), 9);
    }));
  });
  it("swings that did not change are called changed about one time in ten or less", () => {
    const random = seededRandom("no change");
    let called = 0;
    for (let i = 0; i < 2000; i++) {
      const draw = () => set(Array.from({ length: 5 }, () => 15 + 2 * random.normal()));
      if (changeBetween(draw(), draw(), { band }).word === "changed") called++;
    }
    expect(called / 2000).toBeLessThan(0.1);
  });
});

describe("several swings of one checkpoint", () => {
  it("three on the newest day stand against the last day that had three, over days that had fewer", () => {
    const list = [...set([1, 2, 3], { day: "2026-11-20" }), ...set([4], { day: "2026-11-15" }), ...set([5, 6, 7], { day: "2026-11-10" }), ...set([8, 9, 10], { day: "2026-11-01" })];
    expect(twoSets(list)).toMatchObject({ by: "last-check" });
    expect(twoSets(list).before.map(({ value }) => value)).toEqual([7, 6, 5]);
    expect(twoSets(list.slice(0, 5)).by).toBe("earlier-half");
    expect(twoSets([...set([1, 2, 3], { day: "2026-11-20" }), ...set([4], { day: "2026-11-15" }), ...set([5, 6], { day: "2026-11-10" })]).by).toBe("earlier-days");
  });
  it("after a change only the swings since count as usual; the words bear no more digits than the spread, and warn of warm-up on one day", () => {
    const found = severalSwings([...set([15.12, 16.11, 14.02]), ...set([22.2, 23.1, 24.4])], { band });
    expect(found).toMatchObject({ readCount: 6, by: "earlier-half" });
    expect(usualWords(found, "degrees")).toBe("usually 15° ± 1 from swing to swing");
    expect(changeWords(found.change, found.by)).toBe("Changed against the earlier half of these swings, toward the band");
    expect(severalNotes(found)).toContain("Same day: may be warm-up");
  });
  it("one swing has a middle and no spread, and cannot tell; none at all is unknown throughout", () => {
    const one = severalSwings([reading(30, { verdict: "talk-about", deviation: "high" })], { band });
    expect(one).toMatchObject({ median: 30, spread: null, seen: { seen: 1, judged: 1, isHabit: false }, change: { word: "cannot-tell" } });
    expect(usualWords(one, "degrees")).toBeNull();
    expect(severalSwings([], { band })).toMatchObject({ median: null, spread: null, change: { word: "cannot-tell" } });
    expect(severalSwings([reading(NaN), reading(null)], { band })).toMatchObject({ median: null, readCount: 0 });
  });
});
