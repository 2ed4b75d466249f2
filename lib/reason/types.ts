/** What a node of the graph is: a root cause, a cause between, a fault of the swing, or what the ball does. */
export type NodeKind = "root" | "intermediate" | "fault" | "symptom";

/** A number per level of player, such as `{"8-10": 0.08, ...}`; probabilities in 0–1. */
export type ByLevel = Readonly<Record<string, number>>;

/** A cause or fault as the library writes it: a root has a prior, every other kind a leak. */
export interface CausePart {
  readonly id: string;
  readonly kind: string;
  /** Faults may leave the name to their own record. */
  readonly name?: string;
  readonly prior?: ByLevel;
  readonly leak?: ByLevel;
  /** A gate is never ranked (pain). */
  readonly gate?: boolean;
  /** `"slap"`: only for players taken as slappers. */
  readonly onlyFor?: string;
}

/** A causal link; the strength is P(effect | this cause alone, no leak), 0–1. */
export interface EdgePart {
  readonly cause: string;
  readonly effect: string;
  readonly strength: number;
}

/** The part of a fault's record that the graph needs: name, phase and the links to what the ball does. */
export interface FaultPart {
  readonly id: string;
  readonly name: string;
  readonly phase: string;
  readonly symptoms: readonly { readonly id: string; readonly strength: number }[];
}

/** What the ball does, such as pop-ups. */
export interface SymptomPart {
  readonly id: string;
  readonly name: string;
  readonly onlyFor?: string;
}

/** The parts of one library edition that make the graph. The library's own records fit as they are. */
export interface GraphParts {
  readonly nodes: readonly CausePart[];
  readonly edges: readonly EdgePart[];
  readonly faults: readonly FaultPart[];
  readonly symptoms: readonly SymptomPart[];
  readonly phases: readonly { readonly id: string; readonly order: number }[];
  /** The same for every symptom, 0–1. */
  readonly symptomLeak: number;
}

/** A parent of a node, by its place in the graph, with the link's strength. */
export interface ParentLink {
  readonly index: number;
  readonly strength: number;
}

/** One node of a built graph. */
export interface GraphNode {
  readonly id: string;
  readonly kind: NodeKind;
  readonly name: string;
  readonly isGate: boolean;
  /** Order of the phase of the swing, 1 first; null for roots, intermediates and symptoms. */
  readonly phaseOrder: number | null;
  /** Probability with no parent present: the prior of a root, the leak of every other node. */
  readonly leak: number;
  /** By place, rising. */
  readonly parents: readonly ParentLink[];
}

/** An immutable noisy-OR graph for one level. Nodes stand causes first, ties by id, whatever the order of the input. */
export interface CauseGraph {
  readonly level: string;
  readonly isSlapper: boolean;
  readonly nodes: readonly GraphNode[];
  readonly indexById: ReadonlyMap<string, number>;
}

/** Three states; `not-visible` says nothing. */
export type Sight = "seen" | "not-seen" | "not-visible";

/** An answer as a factor over at most four nodes. */
export interface AnswerFactor {
  /** The question's id, for the record and the reasons. */
  readonly question: string;
  readonly answer: string;
  readonly nodes: readonly string[];
  /** P(answer | nodes present), 2^n entries; bit k of the place is the state of `nodes[k]`. All above 0. */
  readonly likelihoods: readonly number[];
}

/** All that is known of one swing or lesson, as plain JSON. What is absent says nothing. */
export interface Evidence {
  /** Calls of the coach about causes and faults. A call replaces the readings of its fault. */
  readonly calls: Readonly<Record<string, Sight>>;
  readonly symptoms: Readonly<Record<string, Sight>>;
  /** Likelihood ratio of the readings of a fault, already held within the limits. Above 0. */
  readonly readings: Readonly<Record<string, number>>;
  readonly answers: readonly AnswerFactor[];
}

/** No evidence at all. */
export const NO_EVIDENCE: Evidence = { calls: {}, symptoms: {}, readings: {}, answers: [] };

/** Words for people for a probability. */
export type LikelihoodWord = "likely" | "maybe" | "unlikely";
