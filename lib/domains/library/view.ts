import type { Level } from "@/lib/core/age";
import type { RecordProblem } from "@/lib/core/record-problem";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { RankingRules } from "@/lib/reason/ranking-types";
import type { GraphParts } from "@/lib/reason/types";
import type { FieldDifference, ProposalSubject } from "./rules";
import type { CheckpointRecord, DrillRecord, FaultRecord, LibraryParts, QuestionRecord } from "./schema";

/** What pages get of the library, field by field. All of it is in force: a draft has no view but its proposal. */
export interface CueView {
  readonly text: string;
  readonly focus: "external" | "internal" | "mixed";
}

/** A link to another record: its id and the name people read. */
export interface NamedLink {
  readonly id: string;
  readonly name: string;
}

/** A fault in a list of search results, with the wording that matched. */
export interface FaultRowView extends NamedLink {
  readonly areaName: string;
  readonly phaseName: string;
  /** What matched, when it is not the name itself. */
  readonly matched: string | null;
}

/** One cause or effect next to a fault in the graph. */
export interface NeighbourView extends NamedLink {
  readonly kind: "fault" | "root" | "intermediate";
  readonly mechanism: string;
  readonly strength: number;
}

/** How a checkpoint bears on a fault: the limit from which it counts. */
export interface FaultCheckpointView extends NamedLink {
  readonly op: "<" | ">";
  readonly value: number;
  readonly valueYouth: number | null;
  readonly unit: string;
  readonly isMeasured: boolean;
}

/** A fault's own page. */
export interface FaultView extends NamedLink {
  readonly synonyms: readonly string[];
  readonly areaName: string;
  readonly phaseName: string;
  readonly sport: "both" | "baseball" | "softball";
  readonly isSlapOnly: boolean;
  readonly looks: { readonly side: string; readonly rear: string; readonly front: string };
  readonly whyItHurts: string;
  readonly playerWording: string;
  readonly safety: string | null;
  readonly lookAlikes: readonly { readonly other: NamedLink | null; readonly words: string; readonly tell: string }[];
  readonly symptoms: readonly NamedLink[];
  readonly checkpoints: readonly FaultCheckpointView[];
  /** Why it is judged by eye, when it has no checkpoint. */
  readonly eyeOnly: string | null;
  readonly comesFrom: readonly NeighbourView[];
  readonly leadsTo: readonly NeighbourView[];
  readonly cues: readonly CueView[];
  readonly drills: readonly (NamedLink & { readonly effect: number; readonly role: "primary" | "secondary" })[];
  readonly noDrillAt: readonly { readonly level: Level; readonly words: string }[];
  readonly editionNumber: number;
}

/** A checkpoint as the library tells it: what is good, the band, what misleads. */
export interface CheckpointView extends NamedLink {
  readonly areaName: string;
  readonly phaseName: string;
  readonly good: string;
  readonly unit: string;
  readonly sign: string;
  readonly primaryView: "side" | "rear" | "front";
  readonly band: BandView | null;
  readonly bandYouth: BandView | null;
  readonly misleads: readonly string[];
  /** False: there is no code for its formula, and it is judged by eye. */
  readonly isMeasured: boolean;
}

/** A band: ok limits, and beyond which act limit it is talked about (null: none on that side). */
export interface BandView {
  readonly okLow: number;
  readonly okHigh: number;
  readonly actLow: number | null;
  readonly actHigh: number | null;
}

/** A drill as it is read by staff. */
export interface DrillView extends NamedLink {
  readonly setup: string;
  readonly purpose: string;
  readonly steps: readonly string[];
  readonly cues: readonly CueView[];
  readonly equipment: readonly string[];
  readonly space: string;
  readonly partner: string;
  readonly adult: "none" | "nearby" | "in-charge" | "operates";
  readonly dose: { readonly minutes: number; readonly sets: number; readonly reps: number; readonly fullSwings: number; readonly effortPercent: number };
  readonly levels: readonly Level[];
  readonly minAge: number;
  readonly safety: readonly string[];
  readonly avoidIf: readonly string[];
  readonly worked: string;
  readonly faults: readonly (NamedLink & { readonly effect: number; readonly role: "primary" | "secondary" })[];
  readonly next: NamedLink | null;
  readonly easier: NamedLink | null;
  readonly editionNumber: number;
}

/** A proposal beside what is in force. */
export interface ProposalView {
  readonly id: string;
  readonly subject: ProposalSubject;
  readonly record: NamedLink;
  readonly state: "open" | "approved" | "declined" | "withdrawn";
  readonly reason: string;
  readonly proposedBy: string;
  readonly proposedAt: Date;
  readonly decidedBy: string | null;
  readonly decidedAt: Date | null;
  /** The head coach's words when it was not taken. */
  readonly answer: string | null;
  readonly editionNumberThen: number;
  readonly differences: readonly FieldDifference[];
  /** What stands against taking it as it is; empty when it may be approved. */
  readonly problems: readonly RecordProblem[];
  readonly can: { readonly approve: boolean; readonly decline: boolean; readonly withdraw: boolean };
}

/** An edition in the history of the library: when, by whom, and what it changed. */
export interface EditionView {
  readonly id: string;
  readonly number: number;
  readonly contentHash: string;
  readonly createdAt: Date;
  readonly approvedBy: string | null;
  readonly changed: readonly (NamedLink & { readonly subject: ProposalSubject; readonly reason: string })[];
  readonly isInForce: boolean;
}

/** Which edition is in force. */
export interface EditionInForce {
  readonly id: string;
  readonly number: number;
  readonly contentHash: string;
  readonly approvedAt: string;
  readonly summary: string;
}

/** What ranking and explaining need, of one edition; `graph` goes into `buildGraph` as it is, `rankingRules` into the ranking. */
export interface LibraryForReasoning {
  readonly edition: EditionInForce;
  readonly graph: GraphParts;
  readonly rankingRules: RankingRules;
  readonly causes: LibraryParts["causes"];
  readonly faults: readonly FaultRecord[];
  readonly symptoms: LibraryParts["symptoms"]["symptoms"];
  readonly checkpoints: readonly CheckpointRecord[];
  readonly areas: LibraryParts["areas"]["areas"];
  readonly threeQuestions: LibraryParts["areas"]["threeQuestions"];
  readonly phases: LibraryParts["phases"]["phases"];
  readonly questions: readonly QuestionRecord[];
  readonly questionMethod: LibraryParts["questions"]["method"];
  readonly terms: LibraryParts["terms"];
}

/** One checkpoint for taking readings: as the formulas want it, and as the library writes it. */
export interface CheckpointForMeasuring extends NamedLink {
  readonly area: string;
  readonly phase: string;
  readonly isMeasured: boolean;
  readonly definition: CheckpointDefinition;
  readonly record: CheckpointRecord;
}

export interface LibraryForMeasuring {
  readonly edition: EditionInForce;
  readonly checkpoints: readonly CheckpointForMeasuring[];
  /** Which checkpoints are on and off for a slapped ball. */
  readonly slap: LibraryParts["checkpoints"]["slap"];
  readonly terms: LibraryParts["terms"];
  readonly events: LibraryParts["phases"]["events"];
}

/** What homework is planned from. Every drill is in force; a record fits `lib/prescribe` as it is. */
export interface LibraryForPlanning {
  readonly edition: EditionInForce;
  readonly drills: readonly DrillRecord[];
  readonly gear: LibraryParts["gear"];
  readonly loads: LibraryParts["loads"];
  readonly faults: readonly FaultRecord[];
  readonly terms: LibraryParts["terms"];
}
