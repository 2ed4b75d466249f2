import type { Id } from "@/lib/core/ids";
import type { WantedCheckpoint } from "@/lib/domains/clips/rules";
import type { SwingPage } from "@/lib/domains/clips/schema";
import type { BesideGroup, CameraView, ClipBeside } from "@/lib/domains/clips/view";
import type { Band, CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { Reading } from "@/lib/measure/reading";
import type { ReadingRules } from "@/lib/measure/reading-rules";
import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";
import type { HabitRule } from "@/lib/measure/several/seen-count";

/** A checkpoint of the library that can be read from a clip. */
export interface CheckpointToRead {
  readonly id: string;
  readonly name: string;
  readonly area: string;
  readonly phase: string;
  readonly definition: CheckpointDefinition;
}

/** All that readings are taken by: small enough for a page to take them anew while a point moves. */
export interface ReadingBook {
  readonly editionId: Id | null;
  readonly checkpoints: readonly CheckpointToRead[];
  readonly rules: ReadingRules;
}

/** What was read on one clip. Readings made of event times stand at the clip on which contact is marked. */
export interface ClipReadings {
  readonly clipId: Id;
  readonly readings: readonly Reading[];
}

/** A question of the academy's own, with the areas it looks at. */
export interface ReadingSection {
  readonly id: string;
  readonly question: string;
  readonly areas: readonly string[];
}

/** One swing with its readings, as the swing view shows them. */
export interface SwingReadings {
  readonly swing: SwingPage;
  readonly book: ReadingBook;
  /** Under which questions the readings stand; what no question asks for comes after them. */
  readonly sections: readonly ReadingSection[];
  readonly clips: readonly ClipReadings[];
  /** For each clip which points its checkpoints need. */
  readonly wanted: readonly { readonly clipId: Id; readonly checkpoints: readonly WantedCheckpoint[] }[];
}

/** One checkpoint over several swings, all seen from one view. */
export interface CheckpointOverSwings {
  readonly checkpointId: string;
  /** Null for what is made of event times: no view decides it. */
  readonly view: CameraView | null;
  readonly unit: string;
  /** The band in force on the swing that is looked at. */
  readonly band: Band | null;
  /** Newest swing first, one for each swing that was filmed from this view. */
  readonly readings: readonly RepeatedReading[];
}

/** How the comparable swings of the same player and side read, as kept. */
export interface ComparableReadings {
  readonly swingId: Id;
  /** This swing among those like it, newest first. */
  readonly swings: readonly { readonly id: Id; readonly filmedOn: string }[];
  /** Swings of the same time that were taken otherwise, in words: "off a tee, this one at a tossed ball". */
  readonly leftOut: readonly { readonly count: number; readonly words: string }[];
  /** Facts on which these swings agree only in that nobody noted them: "pitch height". */
  readonly notNoted: readonly string[];
  readonly habit: HabitRule;
  readonly checkpoints: readonly CheckpointOverSwings[];
}

/** Up to four clips beside each other, the first of them of the swing that was opened, and what else may be laid beside. */
export interface SwingsBeside {
  readonly swingId: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly clips: readonly ClipBeside[];
  /** Models that were asked for and may no longer be shown: left out. */
  readonly goneModels: number;
  readonly groups: readonly BesideGroup[];
}
