import { beforeAll, describe, expect, test } from "vitest";
import { contentHash } from "@/lib/core/canonical-json";
import { searchTerms } from "@/lib/core/search-terms";
import { importLibrary } from "@/lib/domains/library/commands";
import { getCheckpointDefinitions, getDrillsForPlanning, getEditionInForce, getLibraryForReasoning } from "@/lib/domains/library/queries";
import { readWorkingTables } from "@/lib/domains/library/scope";
import { database, inTransaction } from "@/lib/platform/database";
import { buildGraph } from "@/lib/reason/graph";
import { buildLibrary } from "@/seed/builders/library";
import { buildAcademy } from "@/seed/builders/people";
import { loadStarterLibrary } from "@/seed/library";

const WORKER = { kind: "system", job: "trial" } as const;
const importInto = (academyId: string, files: Record<string, unknown>) => inTransaction((tx) => importLibrary(tx, academyId, files, { approvedById: null }));

let academyId: string;
let files: Record<string, unknown>;
beforeAll(async () => {
  files = await loadStarterLibrary();
  academyId = (await buildAcademy()).id;
  await buildLibrary(academyId);
});

describe("the import of a library", () => {
  test("what the working tables hold reads back as the files that were imported, and the edition's hash is theirs", async () => {
    expect(await readWorkingTables(database(), academyId)).toEqual(files);
    const edition = await database().edition.findFirstOrThrow({ where: { academyId } });
    expect(edition).toMatchObject({ number: 1, approvedById: null, contentHash: await contentHash(files) });
    expect(edition.snapshot).toEqual(files);
    expect(edition.summary).toContain("45 faults");
  });

  test("a second import leaves the library as it is", async () => {
    const first = await getEditionInForce.as(WORKER, { academyId });
    const again = await importInto(academyId, { ...files, drills: "broken" });
    expect(again.id).toBe(first?.id);
    expect(await database().edition.count({ where: { academyId } })).toBe(1);
  });

  test("every name of a fault stands in the search column in the form in which it is compared", async () => {
    const names = await database().faultName.findMany({ where: { academyId } });
    expect(names.length).toBeGreaterThan(150);
    for (const { name, searchText } of names) expect(searchText).toBe(searchTerms(name).join(" "));
  });

  const breakages: [string, (broken: Record<string, unknown>) => void, RegExp][] = [
    ["a drill that lacks its steps", (broken) => Reflect.deleteProperty((broken.drills as { drills: object[] }).drills[3]!, "steps"), /drills › [a-z-]+ › steps/],
    ["a fault in no area", (broken) => Object.assign((broken.faults as { faults: object[] }).faults[0]!, { area: "gone" }), /faults › back-foot-overspin › area: There is no area "gone"\./],
    ["a file that is not there", (broken) => Reflect.deleteProperty(broken, "gear"), /gear: The file is not there\./],
    ["a synonym that stands twice", (broken) => (broken.faults as { faults: { synonyms: string[] }[] }).faults[0]!.synonyms.push("spinning out"), /back-foot-overspin › synonyms: "spinning out" stands twice/],
  ];
  test.each(breakages)("%s is refused by its id, and nothing is written", async (_, breakIt, words) => {
    const empty = (await buildAcademy()).id;
    const broken = structuredClone(files);
    breakIt(broken);
    await expect(importInto(empty, broken)).rejects.toThrow(words);
    const where = { academyId: empty };
    const counts = [database().edition.count({ where }), database().libraryPart.count({ where }), database().fault.count({ where }), database().drill.count({ where })];
    expect(await Promise.all(counts)).toEqual([0, 0, 0, 0]);
  });

  test("an edition is never changed nor deleted, whoever tries", async () => {
    const { id } = await database().edition.findFirstOrThrow({ where: { academyId } });
    await expect(database().edition.update({ where: { id }, data: { summary: "Another" } })).rejects.toThrow(/never changed/);
    await expect(database().edition.delete({ where: { id } })).rejects.toThrow(/never changed/);
  });
});

describe("what other parts of the house read of the library", () => {
  test("the graph is built from it for every level, and the ranking's rules are whole", async () => {
    const library = await getLibraryForReasoning.as(WORKER, { academyId });
    for (const level of ["8-10", "adult"]) expect(buildGraph(library.graph, level, { isSlapper: true }).nodes.length).toBeGreaterThan(90);
    expect(library.rankingRules.likelihood.likely.from).toBeGreaterThan(library.rankingRules.likelihood.maybe.from);
    expect(library.faults).toHaveLength(45);
  });

  test("every checkpoint of the starter library can be read from a clip", async () => {
    const { checkpoints, edition } = await getCheckpointDefinitions.as(WORKER, { academyId });
    expect(checkpoints.filter(({ isMeasured }) => isMeasured)).toHaveLength(45);
    expect(checkpoints).toHaveLength(45);
    expect(edition.number).toBe(1);
    expect(checkpoints.find(({ id }) => id === "load-hip-shift")?.definition.events.length).toBeGreaterThan(0);
  });

  test("an edition's parts are read once and then known; which edition is in force is asked each time", async () => {
    const first = await getDrillsForPlanning.as(WORKER, { academyId });
    const second = await getDrillsForPlanning.as(WORKER, { academyId });
    expect(second.drills).toBe(first.drills);
    expect(first.drills).toHaveLength(81);
  });

  test("the worker names the academy, and a library that is not there is not found", async () => {
    await expect(getDrillsForPlanning.as(WORKER, {})).rejects.toThrow(/no such/);
    await expect(getDrillsForPlanning.as(WORKER, { academyId: (await buildAcademy()).id })).rejects.toThrow(/no such library/);
  });
});
