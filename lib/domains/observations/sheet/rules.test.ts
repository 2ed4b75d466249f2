import { describe, expect, test } from "vitest";
import { takenWords } from "@/lib/measure/several/like-for-like";
import type { Sight } from "@/lib/reason/types";
import { calledCounts, columnOfPhase, placeInDay, readCounts, unlikeWords, type CountedReading } from "./rules";

const habit = { seenAtLeast: 3, ofLast: 5 };
const swings = ["a", "b", "c", "d", "e"].map((id) => ({ id }));
const taken = {
  playerId: "p", side: "right", swingKind: "power", task: "tee", effort: "game", pitchHeight: "belt", pitchSide: "middle", pitchSpeed: "unknown", batClass: "usual",
};
const same = ["side", "swingKind", "task", "pitchHeight", "pitchSide", "batClass"] as const;
const call = (swingId: string, state: Sight, hour = 1) => ({ swingId, faultId: "barrel-drag", state, calledAt: new Date(Date.UTC(2026, 10, 25, hour)) });
const faults = [{ id: "barrel-drag", name: "Barrel drag", phase: "launch" }];
const checkpoints = [{ id: "chest", name: "Chest open before contact", phase: "launch" }];
const reading = (swingId: string, verdict: "talk-about" | "fine" | "watch" | "cannot-tell" | null, isGrey = false): CountedReading => ({
  swingId, checkpointId: "chest", body: { value: verdict === null ? null : 1, sd: 0.1, verdict, isGrey, deviation: verdict === "talk-about" ? "high" : null },
});

describe("k of n swings", () => {
  test("N21: not visible stands outside the sum and is never counted as not seen", () => {
    const { launch } = calledCounts(swings, [call("a", "seen"), call("b", "seen"), call("c", "not-visible"), call("d", "not-visible"), call("e", "not-visible")], faults, habit);
    expect(launch).toEqual([{ id: "barrel-drag", name: "Barrel drag", seen: 2, judged: 2, notVisible: 3, notLooked: 0, isHabit: false }]);
  });

  test("a swing in which nobody has looked is neither seen, nor not seen, nor not visible", () => {
    expect(calledCounts(swings, [call("a", "seen"), call("b", "not-seen")], faults, habit).launch).toMatchObject([{ seen: 1, judged: 2, notVisible: 0, notLooked: 3 }]);
  });

  test("of two calls on one swing the later one holds, and calls on other swings stay out", () => {
    const calls = [call("a", "not-seen", 5), call("a", "seen", 4), call("z", "seen")];
    expect(calledCounts(swings, calls, faults, habit).launch).toMatchObject([{ seen: 0, judged: 1 }]);
  });

  test("N53: three of five are a habit, and one swing never is", () => {
    expect(calledCounts(swings, ["a", "b", "c"].map((id) => call(id, "seen")), faults, habit).launch).toMatchObject([{ seen: 3, isHabit: true }]);
    expect(calledCounts(swings.slice(0, 1), [call("a", "seen")], faults, habit).launch).toMatchObject([{ seen: 1, judged: 1, isHabit: false }]);
    expect(readCounts(swings.slice(0, 1), [reading("a", "talk-about")], checkpoints, habit).launch).toMatchObject([{ seen: 1, judged: 1, isHabit: false }]);
    expect(readCounts(swings, swings.map(({ id }) => reading(id, "talk-about")), checkpoints, habit).launch).toMatchObject([{ seen: 5, judged: 5, isHabit: true }]);
  });

  test("a reading that is grey, unknown or cannot tell does not show the swing, whichever way", () => {
    const readings = [reading("a", "talk-about"), reading("b", "talk-about", true), reading("c", null), reading("d", "cannot-tell"), reading("e", "fine")];
    expect(readCounts(swings, readings, checkpoints, habit).launch).toMatchObject([{ seen: 1, judged: 2, notVisible: 3 }]);
  });

  test("what nowhere is one to talk about has no line", () => {
    expect(readCounts(swings, [reading("a", "fine")], checkpoints, habit)).toEqual({});
    expect(calledCounts(swings, [], faults, habit)).toEqual({});
  });
});

describe("like for like", () => {
  test("N23: every fact in which a swing was taken otherwise is named, and alike ones need no word", () => {
    expect(unlikeWords(taken, taken, same)).toEqual([]);
    expect(unlikeWords({ ...taken, task: "toss", pitchHeight: "high" }, taken, same)).toEqual(["at a tossed ball, this one off a tee", "at a high ball, this one at a belt-high ball"]);
  });

  test("how a swing was taken is said without what is ordinary or not noted", () => {
    expect(takenWords(taken)).toBe("off a tee, at a belt-high ball, at a ball down the middle");
    expect(takenWords({ ...taken, pitchHeight: "unknown", pitchSide: "unknown", batClass: "heavier" })).toBe("off a tee, with a heavier bat");
  });
});

test("every phase of the library has its column, and stance and stride stand at what they lead to", () => {
  expect(["stance", "load", "stride", "foot-plant", "launch", "contact", "extension", "follow-through"].map(columnOfPhase)).toEqual([
    "load", "load", "toe", "plant", "launch", "contact", "extension", "finish",
  ]);
});

test("a swing is counted among those of its day, the first one first", () => {
  const newestFirst = [{ id: "d", day: "2026-11-25" }, { id: "c", day: "2026-11-25" }, { id: "b", day: "2026-11-24" }, { id: "a", day: "2026-11-25" }];
  expect(newestFirst.map((it) => placeInDay(it, newestFirst).number)).toEqual([3, 2, 1, 1]);
  expect(placeInDay({ id: "x", day: "2026-01-01" }, newestFirst)).toEqual({ of: 1, number: 1 });
});
