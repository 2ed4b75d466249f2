import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { type CheckedDrill, checkDrills, type DrillSurroundings } from "./drill-check";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../seed/library/${name}.json`), "utf8"));
const idsOf = (list: { id: string }[]) => new Set(list.map(({ id }) => id));
const drills: CheckedDrill[] = read("drills").drills;
const around: DrillSurroundings = {
  gear: read("gear"),
  faultIds: idsOf(read("faults").faults),
  causeIds: idsOf(read("causes").nodes),
  bandedCheckpointIds: idsOf(read("checkpoints").checkpoints.filter(({ band }: { band: unknown }) => band !== null)),
};
const withChange = (id: string, change: Partial<CheckedDrill>) =>
  checkDrills(drills.map((drill) => (drill.id === id ? { ...drill, ...change } : drill)), around);

it("the starter drills are all right", () => {
  expect(checkDrills(drills, around)).toEqual([]);
});

it.each<[string, string, Partial<CheckedDrill>, string]>([
  ["a step up to nowhere", "mirror-load", { next: "gone" }, "next"],
  ["unknown gear", "mirror-load", { gear: ["crane"] }, "gear"],
  ["an unknown fault", "mirror-load", { faults: [{ fault: "gone", effect: 0.5, role: "primary" }] }, "faults"],
  ["a machine nobody operates", "mixed-speed-round", { adult: "in-charge" }, "adult"],
  ["live pitching without an adult", "stand-in-tracking", { adult: "nearby" }, "adult"],
  ["hard balls without a screen", "front-toss-middle", { gear: ["any-ball", "helmet", "bat"], hardBalls: true }, "gear"],
  ["a one-hand drill for a 10-year-old", "short-bat-top-hand-tee", { minAge: 10, levels: ["8-10", "11-12"] }, "minAge"],
  ["a one-hand drill with a wrist complaint", "short-bat-top-hand-tee", { avoidParts: [] }, "avoidParts"],
  ["an age outside the youngest level", "mirror-load", { minAge: 12 }, "minAge"],
  ["small plastic balls without a mesh", "small-ball-toss", { gear: ["small-plastic-ball", "helmet", "bat", "screen", "eye-protection"] }, "gear"],
  ["an adult who is nobody", "stand-in-tracking", { partnerCount: 0 }, "partnerCount"],
])("%s is named with the drill and the field", (_, id, change, field) => {
  expect(withChange(id, change)).toContainEqual({ file: "drills", id, field, words: expect.stringMatching(/\.$/) });
});

it("a ladder that goes round is named with its way", () => {
  const problems = withChange("wall-hip-touch", { next: "mirror-load" });
  expect(problems.find(({ field, words }) => field === "next" && /mirror-load/.test(words))?.words).toMatch(/goes round: .*mirror-load.*→/);
});
