import type { PlainSentence } from "@/lib/core/words/say";
import type { Drill } from "./drill";
import { hasSoftBalls } from "./gear";

/** What is said about safety above a set of drills, in the order in which it is said. A closed list. */
export const CAUTIONS = {
  adult: "An adult runs this one. Wait for them.",
  "adult-near": "An adult is within call.",
  "swing-circle": "Clear circle: one bat length plus two steps all round. Nobody behind.",
  "taut-net": "Hit only into a taut net or an open field with nobody in front.",
  helmet: "Helmet on.",
  "face-guard": "Face guard on the helmet.",
  screen: "Whoever throws stands behind a screen.",
  eyes: "Eye protection, hitter and tosser.",
  "soft-balls": "Soft balls only.",
  stop: "Anything hurts: stop and tell an adult.",
} as const satisfies Readonly<Record<string, PlainSentence>>;
export type CautionId = keyof typeof CAUTIONS;

export interface Caution {
  readonly id: CautionId;
  readonly words: string;
}

const BATS = ["bat", "light-bat", "short-bat", "old-bat"];
const NETS = ["net", "net-or-field", "hanging-soft-net", "wall-or-net"];
const SOFT_ONLY = ["soft-ball", "foam-ball", "soft-core-ball", "tennis-ball"];

function applies(id: CautionId, drill: Drill, years: number, gear: readonly string[]): boolean {
  const needs = (items: readonly string[]) => items.some((item) => drill.gear.includes(item));
  switch (id) {
    case "adult":
      return years < 18 && (drill.adult === "in-charge" || drill.adult === "operates");
    case "adult-near":
      return years < 8 || (years < 15 && drill.adult === "nearby");
    case "swing-circle":
      return drill.dose.fullSwings > 0 || needs(BATS);
    case "taut-net":
      return needs(NETS) && needs(BATS);
    case "helmet":
      return drill.helmet;
    case "face-guard":
      return drill.faceGuardUnderAge !== undefined && years < drill.faceGuardUnderAge;
    case "screen":
      return needs(["screen", "fine-mesh-screen"]);
    case "eyes":
      return needs(["eye-protection"]);
    case "soft-balls":
      return needs(SOFT_ONLY) || (years < 8 && drill.hardBalls && hasSoftBalls(gear));
    case "stop":
      return true;
  }
}

/**
 * The cautions that hold for at least one of the drills, each once, in the list's order; none for no drills.
 * @param years age in completed years today
 * @param gear items at the place
 */
export function cautionsFor(drills: readonly Drill[], years: number, gear: readonly string[] = []): Caution[] {
  const ids = Object.keys(CAUTIONS) as CautionId[];
  return ids.filter((id) => drills.some((drill) => applies(id, drill, years, gear))).map((id) => ({ id, words: CAUTIONS[id] }));
}
