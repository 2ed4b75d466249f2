import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import type { DrillRecord, FaultRecord } from "@/lib/domains/library/schema";
import { describe, expect, it } from "vitest";
import { countWords, missingParts, noteWordCount, remarksOn, remarksOnPart, wordCountWords, type NoteReader } from "./wording";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../seed/library/${name}.json`), "utf8"));
const drills: DrillRecord[] = read("drills").drills;
const faults: FaultRecord[] = read("faults").faults;
const reader: NoteReader = { givenName: "Ines", ageYears: 12, otherFaults: ["Barrel drag", "Lunge forward"] };
const hard = (text: string, who: NoteReader = reader) => remarksOnPart("oneThing", text, who).filter(({ isHard }) => isHard);
const soft = (text: string) => remarksOnPart("oneThing", text, reader).filter(({ isHard }) => !isHard);
const note = { keptWell: "Your load is quiet.", oneThing: "The belt goes first, then the foot.", why: "That keeps the chest closed a blink longer.", cue: "Belt first", forFamily: "" };

describe("the words of a note", () => {
  it("are kept when they say what happened and what to do", () => {
    expect(remarksOn(note, reader)).toEqual([]);
  });

  it.each(["Your foot is wrong.", "A bad swing.", "We fix your hands.", "The score is low.", "Your fault is the hip.", "Mistakes happen.", "You swung badly."])(
    "never hold a word of blame or of scores: %s",
    (text) => {
      expect(hard(text)).toHaveLength(1);
      expect(hard(text)[0]?.words).toMatch(/stays out of what a family reads/);
    },
  );

  it("may hold a word that only begins like one", () => {
    expect(hard("Keep the badge of your cap at the pitcher, with the fixture in view. Be yourself, wrongside up is fun.")).toEqual([]);
  });

  it.each([
    ["You are slow.", "“you are slow”"], ["Ines is still a bit stiff today.", "“ines is still a bit stiff”"], ["She looks scared of the ball.", "“she looks scared”"], ["You're so small for that bat.", "“you're so small”"],
  ])("call the person nothing, however gently: %s", (text, found) => {
    expect(hard(text)[0]?.words.toLowerCase()).toContain(found);
    expect(hard(text)[0]?.words).toContain("Say what the swing does");
  });

  it.each(["You swing better than your brother.", "You are the best in the group.", "The other kids load later.", "Ines is behind the others.", "Your turn is slower than most players."])(
    "hold nobody against others: %s",
    (text) => expect(hard(text).map(({ words }) => words).join()).toMatch(/others|names the person/),
  );

  it.each(["You look a little chubby.", "Sloppy feet.", "You throw like a girl.", "I am disappointed.", "This ranks low."])("shame nobody: %s", (text) => expect(hard(text)[0]?.words).toMatch(/out of what a family reads\. [A-Z]/));

  it("name every word that stays out, and another way", () => {
    expect(hard("A bad, bad swing, and your mistakes.").map(({ words }) => words)).toEqual([
      "“bad” stays out of what a family reads. Say what happened, or what to do.", "“mistakes” stays out of what a family reads. Say what happened, or what to do next.",
    ]);
  });

  it.each(["The hitter is slow to load.", "Your bat is too heavy for this drill.", "You are always welcome to film.", "You are not alone with it.", "The ball comes slower than a game pitch.", "You are quick, and your hands were late.", "Use the fat part of the bat.", "You load later than in October."])(
    "may say what is ordinary: %s",
    (text) => expect(hard(text)).toEqual([]),
  );

  it("are advised on, not refused, where it is a matter of style", () => {
    expect(soft("Don't drop the hands.")[0]?.words).toMatch(/“Don't” says what not to do/);
    expect(soft("You should have waited.")[0]?.words).toMatch(/looks back/);
    expect(soft("You are talented.")[0]?.words).toMatch(/cannot practise/);
    expect(soft("Your hands drop, your head pulls off and your knee falls in.")[0]?.words).toBe("One sentence speaks of hands, head, knee. One of them is enough.");
    expect(hard("Don't drop the hands. You should have waited. You are talented.")).toEqual([]);
  });

  it.each(["You are a slow starter.", "Ines is too early.", "She's always late.", "He is not ready.", "You’re an arm hitter."])("put no label on the person: %s", (text) => {
    expect(hard(text)[0]?.words).toMatch(/names the person/);
  });

  it("may say what the swing does", () => {
    expect(hard("Your turn is a blink early. The ball is always there to wait for.")).toEqual([]);
  });

  it("never name an injury", () => {
    expect(hard("It may be tendonitis.")[0]?.words).toMatch(/clinician/);
  });

  it("are sentences about one thing, not a list of faults", () => {
    expect(hard("- belt\n- foot\n- hands")[0]?.words).toMatch(/one thing/);
    expect(hard("Work on the barrel drag and the lunge forward.")[0]?.words).toMatch(/Barrel drag.*Lunge forward/);
    expect(hard("That leads to barrel drag later.")).toEqual([]);
  });

  it("hold no numbers for a player under 11, and may from 11", () => {
    expect(hard("Turn 10 degrees more.", { ...reader, ageYears: 10 })[0]?.words).toMatch(/No numbers/);
    expect(hard("Turn 10 degrees more.", { ...reader, ageYears: 11 })).toEqual([]);
    expect(hard("Turn ten degrees more.", { ...reader, ageYears: 10 })[0]?.words).toContain("“degrees”");
    expect(hard("Ten minutes are enough.", { ...reader, ageYears: 9 })).toEqual([]);
  });

  it("are 150 together at most", () => {
    const long = (count: number) => ({ ...note, forFamily: Array.from({ length: count - noteWordCount(note) }, (_, i) => `word${i % 5 === 4 ? "." : ""}`).join(" ") });
    expect(noteWordCount(long(150))).toBe(150);
    expect(remarksOn(long(150), reader)).toEqual([]);
    expect(remarksOn(long(151), reader)).toEqual([{ part: "forFamily", isHard: true, words: "The note has 151 words, 1 more than the 150 that are read at home. Nothing was cut; this part is the longest." }]);
  });

  it("say how many they are while they are written, and how many too many", () => {
    expect([150, 151, 163].map(wordCountWords)).toEqual(["150 of 150 words, with the cue.", "151 of 150 words: 1 too many, with the cue.", "163 of 150 words: 13 too many, with the cue."]);
  });

  it("are counted as words, whatever stands between them", () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{1,8}$/), { maxLength: 40 }), fc.constantFrom(" ", "\n", "  ", " – "), (words, gap) => countWords(words.join(gap)) === words.length),
    );
  });

  it("lack what was kept well before anything else", () => {
    expect(missingParts({ ...note, keptWell: "", why: "" }).map(({ part }) => part)).toEqual(["keptWell", "why"]);
  });

  it("of the library itself pass: cues and what a player is told at any age, steps and signs of success from eleven", () => {
    const young = { ...reader, ageYears: 9, otherFaults: [] };
    const told = [...faults.flatMap(({ cues, playerWording }) => [playerWording, ...cues.map(({ text }) => text)]), ...drills.flatMap(({ cues }) => cues.map(({ text }) => text))];
    const done = drills.flatMap(({ steps, worked, purpose }) => [...steps, worked.observe, purpose]);
    expect(told.length).toBeGreaterThan(100);
    expect(told.filter((text) => hard(text, young).length > 0)).toEqual([]);
    expect(done.length).toBeGreaterThan(200);
    expect(done.filter((text) => hard(text, { ...young, ageYears: 11 }).length > 0)).toEqual([]);
  });

  it("of the demo's own notes pass at nine", async () => {
    const story = readFileSync(path.resolve(import.meta.dirname, "../../seed/demo/story.ts"), "utf8");
    const said = [...story.matchAll(/(?:keptWell|oneThing|why|forFamily|cue): "([^"]+)"/g)].map((match) => match[1] ?? "");
    expect(said.length).toBeGreaterThan(8);
    expect(said.filter((text) => hard(text, { ...reader, ageYears: 9, otherFaults: [] }).length > 0)).toEqual([]);
  });
});
