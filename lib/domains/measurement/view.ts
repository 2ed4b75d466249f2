import type { Id } from "@/lib/core/ids";
import type { WantedCheckpoint } from "@/lib/domains/clips/rules";
import type { SwingPage } from "@/lib/domains/clips/schema";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { Reading } from "@/lib/measure/reading";
import type { ReadingRules } from "@/lib/measure/reading-rules";

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

/** One swing with its readings, as the swing view shows them. */
export interface SwingReadings {
  readonly swing: SwingPage;
  readonly book: ReadingBook;
  readonly clips: readonly ClipReadings[];
  /** For each clip which points its checkpoints need. */
  readonly wanted: readonly { readonly clipId: Id; readonly checkpoints: readonly WantedCheckpoint[] }[];
}
