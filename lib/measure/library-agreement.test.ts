import { describe, expect, it } from "vitest";
import { LENGTH_RULES, pointsOf } from "@/lib/measure/body-lengths";
import type { CheckpointDefinition, NullRule } from "@/lib/measure/checkpoint-definition";
import { EVENT_IDS } from "@/lib/measure/clip-input";
import { MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import { findFormula, isKnownFormula, listFormulas } from "@/lib/measure/formula-registry";
import { checkNullRule, RULE_FACTS, RULE_OPS } from "@/lib/measure/null-rule-check";
import { EVENT_OF_SYMBOL } from "@/lib/measure/null-rule-symbols";
import { eventsNeeded } from "@/lib/measure/prepare-sample";
import { mixesOf, POINT_IDS } from "@/lib/measure/points";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { TRUST_REASONS } from "@/lib/measure/trust-reasons";
import library from "@/seed/library/checkpoints.json";
import conventionsFile from "@/seed/library/conventions.json";
import phases from "@/seed/library/phases.json";
import terms from "@/seed/library/terms.json";

const { conventions } = conventionsFile;
const definitions = library.checkpoints as unknown as readonly (CheckpointDefinition & {
  readonly points: readonly string[];
  readonly pointsElse?: readonly { readonly use: readonly string[] }[];
  readonly scalePoints: Readonly<Record<string, unknown>>;
  readonly symbols?: Readonly<Record<string, string>>;
})[];

describe("the code agrees with the starter library", () => {
  it("points, events, their symbols and marking SDs are the library's", () => {
    expect(POINT_IDS).toEqual(conventions.points);
    expect(EVENT_IDS).toEqual(phases.events.map(({ id }) => id));
    expect(EVENT_OF_SYMBOL).toEqual(Object.fromEntries(phases.events.map(({ symbol, id }) => [symbol, id])));
    expect(MARKED_SD_SECONDS).toEqual(Object.fromEntries(phases.events.map(({ id, markedSdSeconds }) => [id, markedSdSeconds])));
  });
  it("noise, verdict, size and slap rules are the library's", () => {
    const { unit: _, rule: __, ...suggested } = conventions.noise.suggested;
    expect(STARTER_RULES.noise.suggested).toEqual(suggested);
    expect(STARTER_RULES.noise.placed).toEqual({ T: conventions.noise.placed.T, px: conventions.noise.placed.px });
    expect(STARTER_RULES.verdict).toEqual({ talkAtLeast: terms.verdictRule.talkAbout.pTalkAtLeast, fineAtLeast: terms.verdictRule.fine.pFineAtLeast, cannotTellSdOverOkWidth: terms.verdictRule.cannotTell.sdOverOkWidthMoreThan });
    expect(STARTER_RULES.size).toEqual({ large: terms.sizeRule.large, clear: terms.sizeRule.clear });
    expect(STARTER_RULES.slap).toEqual({ on: library.slap.on, ownBaselineOnly: library.slap.ownBaselineOnly, say: library.slap.say });
    expect(STARTER_RULES.youthUnderAgeYears).toBe(conventions.youth.underAge);
  });
  it("the reasons are the library's closed list, with its words and effects, but for those of comparisons", () => {
    const listed = terms.lists.trustReason.filter(({ effect }) => effect !== "grey-comparison");
    expect(TRUST_REASONS).toEqual(Object.fromEntries(listed.map(({ id, words, effect }) => [id, { words, effect }])));
  });
  it("lengths are made of the library's points in the library's views", () => {
    for (const { id, points, views, over } of conventions.lengths) {
      const rule = LENGTH_RULES[id as keyof typeof LENGTH_RULES];
      expect([id, [...pointsOf(rule)].sort(), [...rule.views].sort(), rule.over]).toEqual([id, [...points].sort(), [...views].sort(), over]);
    }
    expect(Object.keys(LENGTH_RULES).sort()).toEqual(conventions.lengths.map(({ id }) => id).sort());
  });
  it("facts and comparisons of rules are the library's", () => {
    expect(RULE_FACTS).toEqual(conventions.facts.map(({ id }) => id));
    expect(RULE_OPS).toEqual(conventions.nullWhen.ops);
  });
  it("every null rule of the library can be used", () => {
    const rules = definitions.flatMap((definition) => definition.nullWhen.map((rule) => [definition, rule] as const));
    expect(rules.length).toBeGreaterThan(20);
    for (const [definition, rule] of rules) {
      const scope = { symbols: Object.keys(definition.symbols ?? {}), hasWindow: definition.window !== null };
      expect([definition.id, checkNullRule(rule, scope)]).toEqual([definition.id, []]);
    }
  });
  it("each formula reads the points, lengths, events and named values that its checkpoint lists", () => {
    for (const { id, version } of listFormulas()) {
      const definition = definitions.find((one) => one.formulaId === id && one.formulaVersion === version);
      const formula = findFormula(id, version);
      if (!definition || !formula) throw new Error(`${id} is not in the library`);
      const listed = [...definition.points, ...(definition.pointsElse ?? []).flatMap(({ use }) => use)].sort();
      const read = [...Object.values(formula.reads).flatMap(([place]) => mixesOf(place).flatMap(Object.keys)), ...Object.values(formula.window?.tracks ?? {}).flatMap((place) => mixesOf(place).flatMap(Object.keys)), ...Object.values(formula.resting ?? {}).flat()];
      expect([id, [...new Set(read)].sort()]).toEqual([id, listed]);
      const events = new Set([...eventsNeeded(formula), ...(formula.resting ? ["stance"] : [])]);
      expect([id, [...events].sort()]).toEqual([id, [...definition.events].sort()]);
      expect([id, Object.keys(formula.named).sort()]).toEqual([id, definition.named.map((named) => named.id).sort()]);
      for (const length of formula.lengths ?? []) expect(Object.keys(definition.scalePoints)).toContain(length);
    }
  });
  it("a formula is known by its id and version together", () => {
    expect([isKnownFormula("hip-travel", 1), isKnownFormula("hip-travel", 2), isKnownFormula("toString", 1)]).toEqual([true, false, false]);
  });
});

describe("a rule that cannot be used is named", () => {
  const problem = (rule: Partial<NullRule>) => checkNullRule({ say: "why", ...rule }).join("; ");
  it.each<[Partial<NullRule>, RegExp]>([
    [{ left: "u(an_f,t_plant)", op: "<", right: "0.5*T", say: "" }, /no sentence/],
    [{ left: "u(an_f,t_plant)", op: "!=", right: 1 }, /comparison "!="/],
    [{ left: "u(ankle,t_plant)", op: "<", right: 1 }, /"ankle"/],
    [{ left: "u(an_f,t_planted)", op: "<", right: 1 }, /"t_planted"/],
    [{ left: "process(1)", op: "<", right: 1 }, /no function "process"/],
    [{ left: "constructor(1)", op: "<", right: 1 }, /no function "constructor"/],
    [{ left: "abs(1", op: "<", right: 1 }, /missing/],
    [{ left: "1;2", op: "<", right: 1 }, /cannot read/],
    [{ left: "T T", op: "<", right: 1 }, /operator/],
    [{ left: "frames()", op: "<", right: 3, over: "window" }, /has none/],
    [{ fact: "mood", is: ["good"] }, /no fact "mood"/],
    [{ fact: "task" }, /which "task"/],
    [{ fact: "swing-reading", op: "<", right: 0 }, /name the checkpoint/],
  ])("%o", (rule, sentence) => expect(problem(rule)).toMatch(sentence));
});
