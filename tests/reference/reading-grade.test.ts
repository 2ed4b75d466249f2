import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import type { DrillRecord, FaultRecord } from "@/lib/domains/library/schema";
import { CAUTIONS } from "@/lib/prescribe/cautions";
import { CHILD_GRADE, DRILL_GRADE, readingGrade } from "../support/reading-grade";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../seed/library/${name}.json`), "utf8"));
const drills: DrillRecord[] = read("drills").drills;
const faults: FaultRecord[] = read("faults").faults;
/** Drills that a child of ten may be given. */
const young = drills.filter(({ levels }) => levels.includes("8-10"));

describe("the reading grade", () => {
  it("is that of its formula: ten words of one syllable in one sentence, and a sentence that is hard", () => {
    expect(readingGrade(["The cat sat on the mat and had a nap."]).grade).toBeCloseTo(0.39 * 10 + 11.8 - 15.59, 6);
    expect(readingGrade(["Proximal segments decelerate sequentially, transferring considerable rotational momentum distally."]).grade).toBeGreaterThan(15);
  });
});

describe("what a child reads of the library", () => {
  it.each([
    ["cues", [...faults.flatMap(({ cues }) => cues.map(({ text }) => text)), ...drills.flatMap(({ cues }) => cues.map(({ text }) => text))]],
    ["what a player is told", faults.map(({ playerWording }) => playerWording)],
    ["steps of a child's drills", young.flatMap(({ steps }) => steps)],
    ["how to know it worked", young.map(({ worked }) => worked.observe)],
    ["cautions", Object.values(CAUTIONS)],
  ])(`is read with ease in year ${CHILD_GRADE}: %s`, (_what, texts) => {
    const { grade, words } = readingGrade(texts as string[]);
    console.info(`${_what}: grade ${grade.toFixed(1)}, ${words} words`);
    expect(words).toBeGreaterThan(40);
    expect(grade).toBeLessThanOrEqual(CHILD_GRADE);
  });

  it(`is no harder than year ${DRILL_GRADE} in any one drill`, () => {
    const hard = young.map(({ id, steps, worked, cues }) => ({ id, grade: readingGrade([...steps, worked.observe, ...cues.map(({ text }) => text)]).grade })).filter(({ grade }) => grade > DRILL_GRADE);
    expect(young.length).toBeGreaterThan(30);
    expect(hard).toEqual([]);
  });
});
