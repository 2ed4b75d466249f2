import type { Id } from "@/lib/core/ids";
import type { LibraryParts } from "@/lib/domains/library/schema";
import type { Side } from "@/lib/domains/roster/rules";
import type { Sight } from "@/lib/reason/types";
import { symptomsOf, termOf, type GivenEvidence } from "../rules";
import type { BallRow } from "../scope";

/** What the ball does, with who says so. */
export interface SymptomView {
  readonly symptomId: string;
  readonly name: string;
  readonly state: Sight;
  /** "7 of 20: rolled over …"; null without a count. */
  readonly countWords: string | null;
  /** The coach's own word stands above the tally. */
  readonly isCalled: boolean;
}

export interface Choice {
  readonly value: string;
  readonly label: string;
}

export interface BallView {
  readonly id: Id;
  readonly day: string;
  readonly words: string;
}

export interface TallyView {
  readonly playerId: Id;
  readonly name: string;
  readonly side: Side;
  readonly lists: Readonly<Record<"task" | "swingKind" | "pitchHeight" | "pitchSide" | "pitchSpeed" | "direction" | "height" | "timing" | "spot" | "curve", readonly Choice[]>>;
  /** The pitch of the last ball: what is chosen at first. */
  readonly last: Readonly<Record<"task" | "swingKind" | "pitchHeight" | "pitchSide" | "pitchSpeed", string>>;
  readonly balls: readonly BallView[];
  readonly ballCount: number;
  readonly symptoms: readonly SymptomView[];
}

/** So many of the last balls stand on the page. */
const BALLS_SHOWN = 12;

/** What the ball does, known things first; those of slappers only for slappers. */
export function symptomViews(given: Pick<GivenEvidence, "parts" | "symptomCalls" | "balls" | "isSlapper">): SymptomView[] {
  const { parts, isSlapper } = given;
  const records = new Map(parts.symptoms.symptoms.map((record) => [record.id, record]));
  const rules = new Map(parts.terms.tally.symptoms.map((rule) => [rule.symptom, rule.words]));
  return symptomsOf(given).flatMap(({ symptom, state, count, isCalled }): SymptomView[] => {
    const record = records.get(symptom);
    if (!record || (record.onlyFor !== undefined && !isSlapper)) return [];
    const countWords = count && count.of > 0 ? `${count.shown} of ${count.of}: ${rules.get(symptom) ?? ""}` : null;
    return [{ symptomId: symptom, name: record.name, state, countWords, isCalled }];
  });
}

const choices = (list: readonly { readonly id: string; readonly words: string }[]): Choice[] => list.map(({ id, words }) => ({ value: id, label: words }));

/** The page of a tally. */
export function tallyView(parts: LibraryParts, of: { playerId: Id; name: string; side: Side; isSlapper: boolean }, balls: readonly BallRow[], symptoms: readonly SymptomView[]): TallyView {
  const { lists, tally } = parts.terms;
  const { direction, height, timing, spot, curve } = tally.categories;
  const [last] = balls;
  const kinds = lists.swingKind.filter(({ id }) => of.isSlapper || id !== "running-slap");
  return {
    playerId: of.playerId, name: of.name, side: of.side,
    lists: {
      task: choices(lists.task.filter(({ id }) => id !== "dry")), swingKind: choices(kinds), pitchHeight: choices(lists.pitchHeight), pitchSide: choices(lists.pitchSide),
      pitchSpeed: choices(lists.pitchSpeed), direction: choices(direction), height: choices(height), timing: choices(timing), spot: choices(spot), curve: choices(curve),
    },
    last: {
      task: last?.task ?? "toss", swingKind: last?.swingKind ?? "power", pitchHeight: last?.pitchHeight ?? "unknown", pitchSide: last?.pitchSide ?? "unknown", pitchSpeed: last?.pitchSpeed ?? "unknown",
    },
    balls: balls.slice(0, BALLS_SHOWN).map((ball) => ({ id: ball.id, day: ball.day.toISOString().slice(0, 10), words: ballWords(parts, ball) })),
    ballCount: balls.length,
    symptoms,
  };
}

/** "Weak, on the ground, pull side, on time" */
function ballWords(parts: LibraryParts, ball: BallRow): string {
  const { categories } = parts.terms.tally;
  const said = [
    ball.quality ? termOf(categories.quality, ball.quality) : termOf(categories.act, ball.act),
    ball.height && termOf(categories.height, ball.height), ball.direction && termOf(categories.direction, ball.direction), ball.timing && termOf(categories.timing, ball.timing),
    ball.spot && termOf(categories.spot, ball.spot), ball.curve && ball.curve !== "none" ? termOf(categories.curve, ball.curve) : null,
  ].filter((words): words is string => Boolean(words));
  return said.map((words, index) => (index === 0 ? words : words.toLowerCase())).join(", ");
}
