import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { libraryFiles, readLibrary } from "./schema";

const folder = path.resolve(import.meta.dirname, "../../../seed/library");
const read = (name: string): unknown => JSON.parse(readFileSync(path.join(folder, `${name}.json`), "utf8"));
const starter = (): Record<string, unknown> => Object.fromEntries(Object.keys(libraryFiles).map((name) => [name, read(name)]));

/** Puts a value at a path such as "drills.drills.0.minAge"; `undefined` takes the field away. */
function put(files: Record<string, unknown>, at: string, value: unknown): void {
  const steps = at.split(".");
  const last = steps.pop() ?? "";
  const target = steps.reduce<unknown>((node, step) => Reflect.get(node as object, step), files) as object;
  if (value === undefined) Reflect.deleteProperty(target, last);
  else Reflect.set(target, last, value);
}

describe("the form of the library", () => {
  it("every starter file is read whole, and nothing in it is lost", () => {
    const { parts, problems } = readLibrary(starter());
    expect(problems).toEqual([]);
    expect(parts).toEqual(starter());
  });

  it.each([
    ["a number written as text", "drills.drills.0.minAge", "8", "mirror-load", "minAge"],
    ["an unknown field", "drills.drills.0.colour", "red", "mirror-load", "colour"],
    ["an unknown inner field", "drills.drills.0.dose.hours", 1, "mirror-load", "dose.hours"],
    ["a missing field", "faults.faults.0.whyItHurts", undefined, "back-foot-overspin", "whyItHurts"],
    ["a link of certain strength", "faults.faults.0.symptoms.0.strength", 1, "back-foot-overspin", "symptoms.0.strength"],
    ["a prior of zero", "causes.nodes.0.prior.adult", 0, "phys-front-hip-limited", "prior.adult"],
    ["an empty word", "gear.items.0.name", " ", "bat", "name"],
    ["an unknown view", "checkpoints.checkpoints.0.views.primary", "top", "load-hip-shift", "views.primary"],
    ["an unknown level", "drills.drills.0.levels.5", "7-8", "mirror-load", "levels.5"],
  ])("%s is refused with the record and the field", (_, at, value, id, field) => {
    const files = starter();
    put(files, at, value);
    const { parts, problems } = readLibrary(files);
    expect(parts).toBeNull();
    expect(problems).toEqual([{ file: at.split(".")[0], id, field, words: expect.stringMatching(/\.$/) }]);
  });

  it("a file that is not there and one that nobody knows are both named", () => {
    const { gear: _, ...rest } = starter();
    const { problems } = readLibrary({ ...rest, recipes: {} });
    expect(problems.map((problem) => problem.file).sort()).toEqual(["gear", "recipes"]);
  });
});
