import { describe, expect, test } from "vitest";
import type { Reading } from "@/lib/measure/reading";
import type { CheckpointToRead } from "../view";
import { groupOf, limitWords, needOf, sectionsOf } from "./groups";
import { numberOf } from "./number-of";
import { takenAt } from "./taken-at";

const reading = (own: Partial<Reading>): Reading =>
  ({ checkpointId: "a", value: 1, sd: 0.1, isGrey: false, verdict: "fine", band: null, inputsUsed: { frames: [], points: [], events: [], scaleFrameIndexes: [] }, ...own }) as Reading;

describe("readings on the swing view", () => {
  test("a reading without a value is not read, and one that is not trusted never stands among those with a verdict", () => {
    expect(groupOf(reading({ value: null, verdict: null }))).toBe("not-read");
    expect(groupOf(reading({ isGrey: true, verdict: null }))).toBe("not-sure");
    expect(groupOf(reading({ verdict: null }))).toBe("no-verdict");
    expect(groupOf(reading({ verdict: "watch" }))).toBe("watch");
  });
  test("what is read stands under the academy's questions, what speaks first, and what no question asks for comes last", () => {
    const of = (checkpointId: string, own: Partial<Reading>) => reading({ checkpointId, ...own });
    const checkpoints = [["a", "back-leg"], ["b", "back-leg"], ["c", "head-eyes"], ["d", "back-leg"]].map(([id, area]) => ({ id, area })) as unknown as CheckpointToRead[];
    const sections = [{ id: "back-leg", question: "What did the back leg do?", areas: ["back-leg"] }, { id: "front-side", question: "And the front?", areas: ["front-side"] }];
    const found = sectionsOf(sections, checkpoints, [of("a", { verdict: "fine" }), of("b", { verdict: "talk-about" }), of("c", { verdict: "watch" }), of("d", { value: null })]);
    expect(found.map(({ id, readings }) => [id, readings.map((it) => it.checkpointId)])).toEqual([["back-leg", ["b", "a"]], ["rest", ["c"]]]);
  });
  test("an unread reading waits for what is farthest away: another view before a point, a film before an event", () => {
    const waits = (...ids: readonly string[]) => needOf(reading({ value: null, reasons: ids.map((id) => ({ id, say: id })) as Reading["reasons"] }));
    expect(waits("points-missing", "view-not-measured")).toBe("view");
    expect(waits("event-missing", "cut-off")).toBe("film");
    expect(waits("points-missing", "event-missing")).toBe("events");
    expect(waits("window-thin", "camera-unknown")).toBe("points");
    expect(waits("rule")).toBe("rule");
  });
  test("a number has the digits that its doubt bears, a limit its words, and a doubt that leans to one side its two ends", () => {
    const number = (own: Partial<Reading>) => numberOf(reading({ reasons: [], named: [], doubt: null, unit: "degrees", value: 12.34, sd: 3.1, sdCamera: 0, censoredWords: null, quantiles: null, ...own }));
    expect(number({})).toBe("12° ± 3");
    expect(number({ censoredWords: "70 or more" })).toBe("70 or more");
    expect(number({ quantiles: { p16: 9.2, p50: 12.3, p84: 15.4 } })).toBe("12° ± 3");
    expect(number({ quantiles: { p16: 11.2, p50: 12.3, p84: 17.4 } })).toBe("12° ± 3, two times in three from 11° to 17°");
    expect(number({ value: null })).toBeNull();
  });
  test("limits are said on the sides that have one", () => {
    const band = (low: number | null, high: number | null) => limitWords(reading({ band: { ok: [low, high], act: [low, high] } }));
    expect(band(-5, 20)).toBe("fine from −5 to 20");
    expect(band(null, 0.13)).toBe("fine up to 0.13");
    expect(band(0.4, null)).toBe("fine from 0.4 on");
    expect(limitWords(reading({}))).toBeNull();
  });
  test("a reading is looked at on the frames of its events in the order of time, and not on those outside the clip", () => {
    const event = (name: "plant" | "contact" | "finish", frameIndex: number | null) => ({ event: name, frameIndex, tick: 0, source: "coach" as const, sdSeconds: null });
    const inputsUsed = { frames: [{ frameIndex: 41, at: "plant" as const, points: [] }], points: [], events: ["contact" as const, "plant" as const, "finish" as const], scaleFrameIndexes: [] };
    const seen = takenAt(reading({ inputsUsed }), [event("contact", 90), event("plant", 40), event("finish", null)]);
    expect(seen).toEqual([{ event: "plant", frameIndex: 40 }, { event: "contact", frameIndex: 90 }]);
  });
});
