import { readFileSync } from "node:fs";
import path from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { contentHash } from "@/lib/core/canonical-json";
import { isKnownFormula, listFormulas } from "@/lib/measure/formula-registry";
import { checkNullRule } from "@/lib/measure/null-rule-check";
import { applyProposal, checkLibrary, compareProposal, findDrills, findFaults, type KnownFormulas } from "./rules";
import { libraryFiles, type LibraryParts, readLibrary } from "./schema";

const folder = path.resolve(import.meta.dirname, "../../../seed/library");
const files = Object.fromEntries(Object.keys(libraryFiles).map((name) => [name, JSON.parse(readFileSync(path.join(folder, `${name}.json`), "utf8"))]));
const starter = readLibrary(files).parts!;
const known: KnownFormulas = {
  isKnownFormula: (_, version) => version === 1,
  checkNullRule: () => [],
};

type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;
let parts: Mutable<LibraryParts>;
beforeEach(() => {
  parts = structuredClone(starter) as Mutable<LibraryParts>;
});
const problems = (formulas = known) => checkLibrary(parts as LibraryParts, formulas);

describe("the library as a whole", () => {
  it("the starter library fits together", () => {
    expect(problems()).toEqual([]);
  });

  const breakages: [string, () => void, { file: string; id: string; field: string }][] = [
    ["a fault in no area", () => (parts.faults.faults[0]!.area = "gone"), { file: "faults", id: "back-foot-overspin", field: "area" }],
    ["a symptom that is not there", () => (parts.faults.faults[0]!.symptoms[0]!.id = "gone"), { file: "faults", id: "back-foot-overspin", field: "symptoms" }],
    ["a checkpoint that is not there", () => (parts.faults.faults[0]!.checkpoints[0]!.checkpoint = "gone"), { file: "faults", id: "back-foot-overspin", field: "checkpoints" }],
    ["a first cue about the body", () => (parts.faults.faults[0]!.cues[0]!.focus = "internal"), { file: "faults", id: "back-foot-overspin", field: "cues" }],
    ["a band that runs backwards", () => parts.checkpoints.checkpoints[0]!.band!.ok.reverse(), { file: "checkpoints", id: "load-hip-shift", field: "band.ok" }],
    ["an act limit inside the band", () => (parts.checkpoints.checkpoints[0]!.band!.act = [99, null]), { file: "checkpoints", id: "load-hip-shift", field: "band.act" }],
    ["a point that is not there", () => parts.checkpoints.checkpoints[0]!.points.push("tail"), { file: "checkpoints", id: "load-hip-shift", field: "points" }],
    ["a checkpoint forgotten on the slap lists", () => parts.checkpoints.slap.off.shift(), { file: "checkpoints", id: "load-hip-shift", field: "slap" }],
    ["an edge to nowhere", () => (parts.causes.edges[0]!.effect = "gone"), { file: "causes", id: "e000", field: "effect" }],
    ["a fault the graph does not know", () => (parts.faults.faults[0]!.id = "new-fault"), { file: "faults", id: "new-fault", field: "id" }],
    ["an id that stands twice", () => parts.symptoms.symptoms.push({ ...parts.symptoms.symptoms[0]! }), { file: "symptoms", id: "pull-side-rollover", field: "id" }],
    ["shares that do not add up", () => (parts.questions.questions[0]!.answers[0]!.base = 0.01), { file: "questions", id: starter.questions.questions[0]!.id, field: "answers" }],
    ["a group of gear with a stranger", () => (parts.gear.groups[0]!.anyOf = ["mirror", "gone"]), { file: "gear", id: "mirror-or-phone", field: "anyOf" }],
    ["a home cap above the day's", () => (parts.loads.swings.rows[0]!.homePerDay = [40, 900]), { file: "loads", id: "8-10", field: "swings.rows" }],
    ["a ladder of drills that goes round", () => (parts.drills.drills.find(({ id }) => id === "wall-hip-touch")!.next = "mirror-load"), { file: "drills", id: "mirror-load", field: "next" }],
    ["a level at which nothing helps", () => (parts.faults.faults.find(({ onlyFor }) => onlyFor)!.noDrillAt = {}), { file: "faults", id: starter.faults.faults.find(({ onlyFor }) => onlyFor)!.id, field: "noDrillAt.8-10" }],
  ];
  it.each(breakages)("%s is named with file, record and field", (_, breakIt, place) => {
    breakIt();
    expect(problems()).toContainEqual({ ...place, words: expect.stringMatching(/\.$/) });
  });

  it("causes that go round are named with their way", () => {
    const { cause, effect } = parts.causes.edges.find((edge) => starter.causes.nodes.some(({ id, kind }) => id === edge.cause && kind === "fault"))!;
    parts.causes.edges.push({ ...parts.causes.edges[0]!, id: "e999", cause: effect, effect: cause });
    expect(problems().find(({ field }) => field === "edges")?.words).toContain("→");
  });

  it("a formula that this program does not have is refused with its id and version", () => {
    parts.checkpoints.checkpoints[0]!.formulaVersion = 2;
    parts.checkpoints.checkpoints.find(({ id }) => id === "finish-balance")!.formulaId = "standing-tall";
    expect(problems({ isKnownFormula, checkNullRule }).map(({ id, field, words }) => [id, field, words])).toEqual([
      ["load-hip-shift", "formulaId", 'There is no formula "load-hip-shift" of version 2 here.'],
      ["finish-balance", "formulaId", 'There is no formula "standing-tall" of version 1 here.'],
    ]);
  });

  it("a null rule of a measured checkpoint that cannot be read is refused with what cannot be read", () => {
    const refusing = { ...known, checkNullRule: () => ['the name "q" is unknown'] };
    const found = problems(refusing);
    expect(found.length).toBeGreaterThan(0);
    for (const problem of found) expect(problem).toMatchObject({ file: "checkpoints", field: "nullWhen", words: 'It cannot be read: the name "q" is unknown.' });
  });

  it("the formulas and the null rules of this program read the starter library", () => {
    expect(listFormulas()).toHaveLength(parts.checkpoints.checkpoints.length);
    expect(problems({ isKnownFormula, checkNullRule })).toEqual([]);
  });

  it("has one hash per content, whatever the order of its keys", async () => {
    const reversed = Object.fromEntries(Object.entries(starter).reverse());
    expect(await contentHash(reversed)).toBe(await contentHash(starter));
    parts.drills.drills[0]!.minAge = 9;
    expect(await contentHash(parts)).not.toBe(await contentHash(starter));
  });
});

describe("search", () => {
  const faults = starter.faults.faults;
  const wordings = faults.flatMap((fault) => [fault.name, ...fault.synonyms].map((wording) => ({ wording, id: fault.id })));

  it("every name and every synonym finds its fault first, however it is typed; a shared one finds all who share it", () => {
    expect(wordings.length).toBeGreaterThan(150);
    const asTyped = ({ wording, id }: (typeof wordings)[number]) =>
      [wording, wording.toUpperCase(), ` ${wording.replace(/[ -]/g, "-")}. `].map((typed) => ({ typed, wording, id }));
    for (const { typed, wording, id } of wordings.flatMap(asTyped)) {
      const found = findFaults(typed, faults);
      const first = found.filter(({ rank }) => rank === found[0]?.rank).map((match) => match.id);
      const sharing = wordings.filter((other) => other.wording.toLowerCase() === wording.toLowerCase()).map((other) => other.id);
      expect(first, typed).toContain(id);
      expect(first.sort(), typed).toEqual(sharing.sort());
    }
  }, 30_000);

  it("two words of a name are found when they are typed as one", () => {
    expect(findFaults("rollover", faults)[0]?.id).toBe(faults.find(({ name }) => name === "Wrists roll over early")?.id);
  });

  it("a drill is found by its name first and by its cues too", () => {
    const drill = starter.drills.drills[0]!;
    expect(findDrills(drill.name, starter.drills.drills)[0]?.id).toBe(drill.id);
    expect(findDrills("back pocket stool", starter.drills.drills).map(({ id }) => id)).toContain(drill.id);
  });
});

describe("a proposal on the library", () => {
  const drill = starter.drills.drills[0]!;
  const fault = starter.faults.faults[0]!;

  it("changes a drill's words and nothing else", () => {
    const outcome = applyProposal("drill", drill, { name: { was: drill.name, becomes: "Mirror gather" } });
    expect(outcome).toEqual({ isApplied: true, record: { ...drill, name: "Mirror gather" } });
  });

  it("cannot loosen who must be there, what gear it needs or how strongly it works", () => {
    for (const field of ["adult", "gear", "helmet", "hardBalls", "faults", "id"] as const) {
      const outcome = applyProposal("drill", drill, { [field]: { was: drill[field], becomes: "x" } });
      expect(outcome).toMatchObject({ isApplied: false, refusals: [{ field, kind: "unknown-field" }] });
    }
  });

  it("with a value of a wrong form is refused with the record and the field", () => {
    const outcome = applyProposal("drill", drill, { dose: { was: drill.dose, becomes: { ...drill.dose, minutes: -1 } } });
    expect(outcome).toMatchObject({ isApplied: false, refusals: [{ file: "drills", id: drill.id, field: "dose.minutes" }] });
    expect(applyProposal("fault", fault, { cues: { was: fault.cues, becomes: [] } })).toMatchObject({ isApplied: false, refusals: [{ field: "cues" }] });
  });

  it("written against words that have changed since is a conflict, and the comparison shows it against what is in force", () => {
    const patch = { name: { was: "An older name", becomes: "Mirror gather" } };
    expect(applyProposal("drill", drill, patch)).toMatchObject({ isApplied: false, refusals: [{ field: "name", kind: "conflict" }] });
    expect(compareProposal(drill, patch)).toEqual([
      { field: "name", hasConflict: true, runs: [{ kind: "same", text: "Mirror" }, { kind: "removed", text: " load check" }, { kind: "added", text: " gather" }] },
    ]);
  });

  it("is compared in words people read", () => {
    const cues = [{ ...drill.cues[0]!, text: "Sit the back pocket on a chair" }, ...drill.cues.slice(1)];
    const [difference] = compareProposal(drill, { cues: { was: drill.cues, becomes: cues } });
    expect(difference?.runs.filter(({ kind }) => kind !== "same").map(({ text }) => text.trim())).toEqual(["stool", "chair"]);
  });
});
