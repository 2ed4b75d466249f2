import type { LibraryParts } from "@/lib/domains/library/schema";
import type { Chain } from "@/lib/reason/chain";
import type { Reason, Reasons } from "@/lib/reason/reasons";
import type { LikelihoodWord } from "@/lib/reason/types";
import type { RunCandidate } from "./rules";

/** One observation and how much it weighs. */
export interface ReasonView {
  readonly words: string;
  readonly size: "small" | "clear" | "large";
}

/** Which observations raised a candidate and which speak against it, strongest first. */
export interface ReasonsView {
  readonly raisedBy: readonly ReasonView[];
  readonly speaksAgainst: readonly ReasonView[];
  /** Of so many observations the part could not be worked out. */
  readonly notWorkedOutCount: number;
}

export interface CandidateView {
  readonly faultId: string;
  readonly name: string;
  readonly sentence: string;
  readonly word: LikelihoodWord;
  /** "found here" or "common at this age anyway", from the probability against that of the level. */
  readonly liftWords: string;
  /** In words for coaches who ask: "96 in 100, three times as often as usual at this level". */
  readonly numbers: string;
  readonly against: readonly string[];
  readonly reasons: ReasonsView | null;
  readonly chain: ChainView;
  readonly isInFocus: boolean;
}

/** The chain to draw, with the names of its columns. */
export interface ChainView extends Pick<Chain, "candidate" | "nodes" | "links" | "text"> {
  readonly columns: readonly string[];
}

/** A candidate in words. */
export function candidateView(parts: LibraryParts, candidate: RunCandidate, reasons: Reasons | null, inFocus: ReadonlySet<string>): CandidateView {
  const asked = (reason: Reason) => reasonView(reason, parts.questions.questions.find(({ id }) => id === reason.id)?.words ?? reason.name);
  const { id, name, sentence, word, lift, probability, against, chain } = candidate;
  const times = lift === null ? "" : `, ${lift.toFixed(1)} times as often as in players of this level`;
  return {
    faultId: id,
    name,
    sentence,
    word,
    liftWords: liftWordsOf(lift),
    numbers: probability === 1 ? `Settled by the call${times}` : `${Math.round(probability * 100)} in 100${times}`,
    against: against.map((effect) => effect.name),
    reasons: reasons && {
      raisedBy: reasons.raisedBy.map(asked), speaksAgainst: reasons.speaksAgainst.map(asked), notWorkedOutCount: reasons.notWorkedOut.length,
    },
    chain: { ...chain, columns: columnsOf(parts, chain) },
    isInFocus: inFocus.has(id),
  };
}

/** From which lift a candidate counts as found here, and below which as rarer than usual. Judgement. */
const FOUND_FROM = 1.5;
const RARE_BELOW = 0.8;

function liftWordsOf(lift: number | null): string {
  if (lift === null) return "how common it is at this level cannot be said";
  if (lift >= FOUND_FROM) return "found here, more than at this level in general";
  return lift < RARE_BELOW ? "rarer here than at this level in general" : "common at this level anyway";
}

/** From which change of the odds, up or down, an observation weighs clearly or largely: by half as much again, by three. Judgement. */
const CLEAR_FROM = Math.log(1.5);
const LARGE_FROM = Math.log(3);

function reasonView({ kind, name, isSeen, logOddsChange }: Reason, question: string): ReasonView {
  const change = Math.abs(logOddsChange);
  const size = change >= LARGE_FROM ? "large" : change >= CLEAR_FROM ? "clear" : "small";
  if (kind === "reading") return { size, words: `Readings of “${name}”` };
  if (kind === "answer") return { size, words: `The answer to “${question}”` };
  return { size, words: `“${name}”: ${isSeen ? "seen" : "not seen"}` };
}

/** The names under the columns of a chain, in order of the swing. */
function columnsOf(parts: LibraryParts, chain: Chain): string[] {
  const phaseOf = (faultId: string) => parts.faults.faults.find(({ id }) => id === faultId)?.phase;
  const count = Math.max(0, ...chain.nodes.map(({ column }) => column + 1));
  return Array.from({ length: count }, (_, column) => {
    const node = chain.nodes.find((one) => one.column === column);
    if (node?.kind === "fault") return parts.phases.phases.find(({ id }) => id === phaseOf(node.id))?.name.toLowerCase() ?? "";
    return node?.kind === "symptom" ? "the ball" : "before";
  });
}
