import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rankMatches, searchTerms } from "./search-terms";

const entries = [
  { id: "early-roll", names: ["Rolls the wrists early", "rollover"], words: ["Palm up, palm down through the ball"] },
  { id: "casting", names: ["Casting", "long swing"], words: ["The hands roll away from the shoulder"] },
];

describe("search", () => {
  it("case, accents, punctuation, hyphens, apostrophes and a plural's s make no difference", () => {
    expect(searchTerms("  Roll-Over: the HITTER’S hips, crossed Élan!")).toEqual(["roll", "over", "the", "hitter", "hip", "crossed", "elan"]);
    expect(searchTerms("cross")).toEqual(["cross"]);
  });

  it("a name is found whether written as one word or two", () => {
    expect(rankMatches("roll-over", entries)[0]?.id).toBe("early-roll");
  });

  it("a name stands before other words", () => {
    expect(rankMatches("roll", entries).map((match) => match.id)).toEqual(["early-roll", "casting"]);
  });

  it("the beginning of a word is enough while typing", () => {
    expect(rankMatches("cast", entries)[0]).toMatchObject({ id: "casting", matched: "Casting" });
  });

  it("nothing asked, or nothing like it, finds nothing", () => {
    expect(rankMatches(" -- ", entries)).toEqual([]);
    expect(rankMatches("umbrella", entries)).toEqual([]);
  });

  it("no text breaks it and every match names a real entry", () => {
    fc.assert(fc.property(fc.string(), (text) => {
      for (const match of rankMatches(text, entries)) expect(["early-roll", "casting"]).toContain(match.id);
    }));
  });
});
