import fc from "fast-check";
import { expect, it } from "vitest";
import { diffWords } from "./word-diff";

const joined = (runs: ReturnType<typeof diffWords>, kind: "removed" | "added") =>
  runs.filter((run) => run.kind === "same" || run.kind === kind).map((run) => run.text).join("");

it("a changed word is shown as taken away and put in, and the rest as it was", () => {
  expect(diffWords("Hold two seconds, reset.", "Hold three seconds, reset.")).toEqual([
    { kind: "same", text: "Hold" },
    { kind: "removed", text: " two" },
    { kind: "added", text: " three" },
    { kind: "same", text: " seconds, reset." },
  ]);
});

it("equal texts have one run, and none when both are empty", () => {
  expect(diffWords("a b", "a b")).toEqual([{ kind: "same", text: "a b" }]);
  expect(diffWords("", "")).toEqual([]);
});

it("the runs give both texts back exactly, whatever they hold", () => {
  const words = fc.array(fc.constantFrom("hip", "hand", " ", "  ", "\n", "ball", "."), { maxLength: 25 }).map((list) => list.join(""));
  fc.assert(fc.property(fc.oneof(words, fc.string()), fc.oneof(words, fc.string()), (before, after) => {
    const runs = diffWords(before, after);
    expect(joined(runs, "removed")).toBe(before);
    expect(joined(runs, "added")).toBe(after);
  }));
});
