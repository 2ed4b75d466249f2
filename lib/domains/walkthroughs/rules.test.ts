import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cueAt, cuesOfTakes, cuesShown, draftSummary, findWords, lengthMs, placeAt, type Cue, type Stretch } from "./rules";

const stretches: readonly Stretch[] = [
  { id: "b", takeId: "two", fromMs: 0, toMs: 5000 },
  { id: "a", takeId: "one", fromMs: 10_000, toMs: 20_000 },
  { id: "c", takeId: "one", fromMs: 2000, toMs: 6000 },
];
const cue = (fromMs: number, toMs: number, text = `${fromMs}`): Cue => ({ fromMs, toMs, text });

describe("the time line of a walkthrough", () => {
  test("an instant lies in one stretch, in the order in which they are told", () => {
    expect(lengthMs(stretches)).toBe(19_000);
    expect(placeAt(stretches, 0)).toMatchObject({ index: 0, takeMs: 0, beginsMs: 0 });
    expect(placeAt(stretches, 5000)).toMatchObject({ index: 1, takeMs: 10_000, beginsMs: 5000 });
    expect(placeAt(stretches, 16_000)).toMatchObject({ index: 2, takeMs: 3000, beginsMs: 15_000 });
    expect(placeAt(stretches, 99_000)).toMatchObject({ index: 2, takeMs: 6000 });
    expect(placeAt([], 0)).toBeNull();
  });

  test("words go with their take, are cut at its ends, and what is trimmed away is not shown", () => {
    const shown = cuesShown(stretches, { one: [cue(0, 1000), cue(5000, 11_000, "over"), cue(19_000, 25_000, "end")], two: [cue(4000, 4500, "last")] });
    expect(shown).toEqual([cue(4000, 4500, "last"), cue(5000, 6000, "over"), cue(14_000, 15_000, "end"), cue(18_000, 19_000, "over")]);
  });

  test("words that are put back and shown again are the same, and hidden ones stay", () => {
    const inOrder = fc.array(fc.tuple(fc.integer({ min: 0, max: 18_000 }), fc.integer({ min: 1, max: 2000 }))).map((them) => them.map(([from, long], i) => cue(from, Math.min(19_000, from + long), `w${i}`)));
    const hidden = { one: [cue(7000, 9000, "hidden"), cue(15_000, 16_000, "old")], two: [] };
    fc.assert(
      fc.property(inOrder, (cues) => {
        const back = cuesOfTakes(stretches, cues, hidden);
        const again = cuesShown(stretches, back);
        const at = (list: readonly Cue[], ms: number) => list.filter((it) => it.fromMs <= ms && ms < it.toMs).map(({ text }) => text).sort();
        for (const ms of [0, 4999, 5000, 9000, 14_999, 15_000, 18_999]) expect(at(again, ms)).toEqual(at(cues, ms));
        expect(back.one).toContainEqual(cue(7000, 9000, "hidden"));
        expect(back.one?.some(({ text }) => text === "old")).toBe(false);
      }),
    );
  });

  test("the words at an instant are those that have begun and not ended", () => {
    expect(cueAt([cue(0, 100), cue(100, 200)], 100)?.fromMs).toBe(100);
    expect(cueAt([cue(0, 100)], 100)).toBeNull();
  });
});

test("the summary says what was called and claims nothing that was not", () => {
  const words = draftSummary("Pia", [
    { kind: "fault", name: "Barrel drag", sight: "seen" }, { kind: "fault", name: "Early chest", sight: "seen" }, { kind: "fault", name: "Barrel drag", sight: "seen" },
    { kind: "fault", name: "Collapsed back side", sight: "not-seen" }, { kind: "fault", name: "Casting", sight: null }, { kind: "drill", name: "Fence swings", sight: null },
  ]);
  expect(words).toBe("We look at what shows in Pia’s swing: barrel drag and early chest. Not there in this swing: collapsed back side. We talk about casting. To work on it: fence swings.");
  expect(draftSummary("Pia", [])).toBe("");
});

test("a line is found by another name of the same thing, by the library's synonyms, and chapters by what they explain", () => {
  const talk = { id: "w", title: "After the lesson", summary: "", cues: [cue(0, 1000, "See how the barrel drags here"), cue(5000, 6000, "Now the load")], chapters: [{ beginsMs: 5000, title: "Opening", aboutId: "barrel-drag" }] };
  const meant = [{ id: "barrel-drag", names: ["Barrel drag", "Sweeping"] }];
  expect(findWords("sweeping", meant, [talk])).toEqual([{ walkthroughId: "w", ms: 5000, words: "Opening" }, { walkthroughId: "w", ms: 0, words: "See how the barrel drags here" }]);
  expect(findWords("load", [], [talk])).toEqual([{ walkthroughId: "w", ms: 5000, words: "Now the load" }]);
  expect(findWords("stride", [], [talk])).toEqual([]);
  expect(findWords("  ", meant, [talk])).toEqual([]);
});
