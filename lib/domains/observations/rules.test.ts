import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { readLibrary } from "@/lib/domains/library/schema";
import { swingsLikeNewest, countCalls, countOf, faultsFor, medianReadings, proposalOf, readingsByFault, type Call, type SwingFacts, type SwingReading } from "./rules";

const names = ["areas", "phases", "symptoms", "checkpoints", "faults", "causes", "questions", "drills", "gear", "loads", "terms", "conventions", "fit_and_timing"];
const folder = path.resolve(import.meta.dirname, "../../../seed/library");
const { parts: found } = readLibrary(Object.fromEntries(names.map((name) => [name, JSON.parse(readFileSync(path.join(folder, `${name}.json`), "utf8")) as unknown])));
if (!found) throw new Error("the starter library does not read");
const parts = found;

const swing = (id: string, filmedOn: string, more: Partial<SwingFacts> = {}): SwingFacts => ({
  id, filmedOn, playerId: "p", side: "right", effort: "practice", pitchSpeed: "unknown", swingKind: "power", task: "tee", pitchHeight: "belt", pitchSide: "middle", batClass: "usual", ...more,
});

describe("swings that are looked at together", () => {
  const rule = parts.terms.comparableRule;

  test("are at most five, like the newest one, and not older than the rule says", () => {
    const alike = ["a", "b", "c", "d", "e", "f"].map((id) => swing(id, "2026-11-25"));
    expect(swingsLikeNewest(alike, rule).map(({ id }) => id)).toEqual(["a", "b", "c", "d", "e"]);
    const mixed = [swing("a", "2026-11-25"), swing("b", "2026-11-24", { task: "toss" }), swing("c", "2026-11-23", { batClass: "heavier" }), swing("d", "2026-09-26"), swing("e", "2026-09-25")];
    expect(swingsLikeNewest(mixed, rule).map(({ id }) => id)).toEqual(["a", "d"]);
  });

  test("are the newest alone when none is like it, and none when there is none", () => {
    expect(swingsLikeNewest([swing("a", "2026-11-25"), swing("b", "2026-11-25", { swingKind: "running-slap" })], rule).map(({ id }) => id)).toEqual(["a"]);
    expect(swingsLikeNewest([], rule)).toEqual([]);
  });
});

describe("calls over several swings", () => {
  const swings = [{ id: "new" }, { id: "mid" }, { id: "old" }];
  const call = (swingId: string, state: Call["state"], minute = 0): Call => ({ swingId, faultId: "barrel-drag", state, calledAt: new Date(Date.UTC(2026, 10, 25, 15, minute)) });
  const count = (...calls: Call[]) => countOf(countCalls(swings, calls), "barrel-drag");

  test("count what most swings that show it say", () => {
    expect(count(call("new", "not-seen"), call("mid", "seen"), call("old", "seen"))).toEqual({ seen: 2, judged: 3, notVisible: 0, state: "seen" });
  });
  test("that are even count as the newest swing that shows it", () => {
    expect(count(call("new", "not-visible"), call("mid", "not-seen"), call("old", "seen"))).toEqual({ seen: 1, judged: 2, notVisible: 1, state: "not-seen" });
  });
  test("that all say not visible say nothing, and are never counted as not seen", () => {
    expect(count(call("new", "not-visible"))).toEqual({ seen: 0, judged: 0, notVisible: 1, state: "not-visible" });
  });
  test("of two coaches on one swing hold as the later one said", () => {
    expect(count(call("new", "seen", 5), call("new", "not-seen", 1)).state).toBe("seen");
    expect(count(call("new", "seen", 5), call("new", "not-seen", 9)).state).toBe("not-seen");
  });
});

describe("readings over several swings", () => {
  const reading = (swingId: string, value: number, more: Partial<SwingReading> = {}): SwingReading => ({
    swingId, checkpointId: "front-knee-firming", value, sd: 1, verdict: "watch", isGrey: false, ...more,
  });

  test("give one factor per checkpoint: the median with its own doubt", () => {
    expect(medianReadings([reading("a", 1), reading("b", 9, { sd: 2 }), reading("c", 4, { sd: 3 })], parts)).toEqual([
      { checkpoint: "front-knee-firming", value: 4, sd: 3, reliability: expect.any(String) },
    ]);
    expect(medianReadings([reading("a", 1, { sd: 3 }), reading("b", 5, { sd: 3 })], parts)).toMatchObject([{ value: 3, sd: 3 }]);
  });
  test("take the surest of one swing, and leave out what is unknown, grey or without a verdict", () => {
    expect(medianReadings([reading("a", 1, { sd: 5 }), reading("a", 7, { sd: 1 })], parts)).toMatchObject([{ value: 7, sd: 1 }]);
    const silent = [reading("a", 1, { isGrey: true }), reading("b", 1, { verdict: null }), reading("c", 1, { value: null })];
    expect(medianReadings(silent as SwingReading[], parts)).toEqual([]);
  });
  test("of a running slap leave the faults of the power swing to the eye", () => {
    const faults = faultsFor(parts, new Set(), { sport: "softball", isSlapper: true });
    const read = medianReadings([reading("a", -30)], parts);
    expect(readingsByFault(parts, faults, read, { isYouth: false, isRunningSlap: false }).size).toBeGreaterThan(0);
    expect([...readingsByFault(parts, faults, read, { isYouth: false, isRunningSlap: true }).keys()].filter((id) => faults.find((fault) => fault.id === id)?.onlyFor === undefined)).toEqual([]);
  });
  test("propose only when they weigh at least two to one", () => {
    expect([3, 2, 1.9, 1, 0.6, 0.5, 0.1].map((ratio) => proposalOf({ ratio, parts: [] }))).toEqual(["seen", "seen", null, null, null, "not-seen", "not-seen"]);
    expect(proposalOf(undefined)).toBeNull();
  });
});

describe("faults that can be called", () => {
  test("are of the player's sport, not retired, and of slappers only for slappers", () => {
    const ids = (retired: string[], sport: string, isSlapper: boolean) => faultsFor(parts, new Set(retired), { sport, isSlapper }).map(({ id }) => id);
    expect(ids(["barrel-drag"], "baseball", false)).not.toContain("barrel-drag");
    const slap = parts.faults.faults.filter((fault) => fault.onlyFor === "slap").map(({ id }) => id);
    expect(slap.length).toBeGreaterThan(0);
    expect(ids([], "softball", true)).toEqual(expect.arrayContaining(slap));
    expect(ids([], "softball", false).filter((id) => slap.includes(id))).toEqual([]);
    expect(ids([], "baseball", true).filter((id) => slap.includes(id))).toEqual([]);
  });
});
