import { describe, expect, it } from "vitest";
import terms from "@/seed/library/terms.json";
import { readTally, type TalliedBall, type TallySymptom } from "./tally";

// The rule is the library's own (common practice, no source); the counts below are worked out by hand.
const rules = terms.tally.symptoms as unknown as readonly TallySymptom[];
const balls = (count: number, facts: Record<string, string | null>, day = "2026-11-25"): TalliedBall[] =>
  Array.from({ length: count }, () => ({ day, facts: { act: "swung", ...facts } }));
const of = (symptom: string, ...all: readonly (readonly TalliedBall[])[]) => readTally(all.flat(), rules, terms.tally.minimum).find((one) => one.symptom === symptom);

const rolled = { quality: "weak", direction: "pull", height: "grounder", timing: "on" };
const liner = { quality: "hard", direction: "middle", height: "line", timing: "on" };

describe("a contact tally", () => {
  it("calls a symptom seen from its share on, not seen up to the other, and says nothing between", () => {
    expect(of("pull-side-rollover", balls(3, rolled), balls(7, liner))).toMatchObject({ shown: 3, of: 10, share: 0.3, state: "seen" });
    expect(of("pull-side-rollover", balls(2, rolled), balls(8, liner))).toMatchObject({ share: 0.2, state: "not-visible" });
    expect(of("pull-side-rollover", balls(10, liner))).toMatchObject({ share: 0, state: "not-seen" });
  });

  it("says nothing under eight balls, nor of fewer than three that show it", () => {
    expect(of("pull-side-rollover", balls(5, rolled), balls(2, liner))?.state).toBe("not-visible");
    expect(of("pull-side-rollover", balls(7, liner))?.state).toBe("not-visible");
    expect(of("topspin-hook", balls(2, { ...liner, direction: "pull", curve: "hook" }), balls(6, { ...liner, curve: "none" }))).toMatchObject({ share: 0.25, state: "not-visible" });
  });

  it("never counts what nobody noted as absent", () => {
    expect(of("jammed", balls(9, liner))).toMatchObject({ of: 0, state: "not-visible" });
    expect(of("jammed", balls(9, liner), balls(8, { ...liner, spot: "sweet" }))).toMatchObject({ of: 8, state: "not-seen" });
    expect(of("late-on-velocity", balls(9, { quality: "hard", pitchSpeed: "game", timing: null }))).toMatchObject({ of: 0, state: "not-visible" });
  });

  it("takes the newest day, and earlier ones back to thirty days only while there are too few", () => {
    const earlier = balls(8, rolled, "2026-11-10");
    expect(of("pull-side-rollover", balls(8, liner), earlier)).toMatchObject({ of: 8, state: "not-seen" });
    expect(of("pull-side-rollover", balls(4, liner), earlier)).toMatchObject({ of: 12, shown: 8, state: "seen" });
    expect(of("pull-side-rollover", balls(4, liner), balls(8, rolled, "2026-10-20"))).toMatchObject({ of: 4, state: "not-visible" });
  });

  it("compares the tee with the game where the symptom is a difference, and asks for both kinds of contact where it is a mix", () => {
    const at = (task: string, hard: number, weak: number) => [...balls(hard, { ...liner, task }), ...balls(weak, { ...liner, task, quality: "weak" })];
    expect(of("bp-not-game", at("tee", 8, 2), at("game", 2, 8))).toMatchObject({ state: "seen" });
    expect(of("bp-not-game", at("tee", 8, 2), at("game", 8, 2))).toMatchObject({ state: "not-seen" });
    expect(of("bp-not-game", at("tee", 8, 2), at("game", 1, 3))).toMatchObject({ state: "not-visible" });
    const belt = { pitchHeight: "belt", pitchSide: "middle" };
    expect(of("inconsistent", balls(5, { ...liner, ...belt }), balls(5, { ...rolled, ...belt }))?.state).toBe("seen");
    expect(of("inconsistent", balls(1, { ...liner, ...belt }), balls(9, { ...rolled, ...belt }))?.state).toBe("not-visible");
  });

  it("gives the same in whatever order the balls come", () => {
    const all = [...balls(4, liner), ...balls(3, rolled), ...balls(5, rolled, "2026-11-12")];
    expect(readTally([...all].reverse(), rules, 8)).toEqual(readTally(all, rules, 8));
  });
});
