import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boxOf, bringTogether, caughtUp, isOvertaken, takenOver } from "./rules";

const words = fc.constantFrom("", "a", "b", "c");
const parts = fc.record({ one: words, two: words });

describe("a text that two write at once", () => {
  it("is what was sent where only one wrote, and the other's where the sender left it alone", () => {
    const was = { one: "a", two: "b" };
    expect(bringTogether({ one: "a", two: "theirs" }, was, { one: "mine", two: "b" })).toEqual({ parts: { one: "mine", two: "theirs" }, taken: ["two"], overtaken: [] });
  });

  it("is held back where both changed the same part", () => {
    expect(bringTogether({ one: "theirs" }, { one: "a" }, { one: "mine" }).overtaken).toEqual(["one"]);
    expect(bringTogether({ one: "same" }, { one: "a" }, { one: "same" }).overtaken).toEqual([]);
  });

  it("loses nobody's words: what somebody changed stands, or it is told", () => {
    fc.assert(
      fc.property(parts, parts, parts, (kept, was, sent) => {
        const brought = bringTogether(kept, was, sent);
        for (const part of ["one", "two"] as const) {
          if (brought.overtaken.includes(part)) continue;
          if (kept[part] !== was[part]) expect(brought.parts[part]).toBe(kept[part]);
          if (sent[part] !== was[part]) expect(brought.parts[part]).toBe(sent[part]);
        }
      }),
    );
  });

  it("does not take a browser's ends of lines for a change", () => {
    expect(bringTogether({ one: "a\nb" }, { one: "a\r\nb" }, { one: "mine" }).overtaken).toEqual([]);
  });
});

describe("a box of the form", () => {
  it("follows what is kept while nobody types, and keeps what was typed", () => {
    expect(caughtUp(boxOf("a"), "theirs")).toMatchObject({ text: "theirs", base: "theirs", turn: 1 });
    const typed = { ...boxOf("a"), text: "mine" };
    expect(caughtUp(typed, "theirs")).toBe(typed);
    expect(isOvertaken(typed, "theirs")).toBe(true);
    expect(takenOver(typed, "theirs")).toMatchObject({ text: "theirs", base: "theirs", turn: 1 });
  });

  it("takes what it sent itself for its own, also when more was typed meanwhile", () => {
    const typing = { ...boxOf("a"), text: "mine and more", sent: "mine" };
    expect(isOvertaken(caughtUp(typing, "mine"), "mine")).toBe(false);
    expect(caughtUp(typing, "mine").text).toBe("mine and more");
  });
});
