import type { Id } from "@/lib/core/ids";
import type { SIDES, UploadRow } from "../schema";

/** A player as the board of a group lesson offers one. */
export interface LessonPlayer {
  readonly id: Id;
  readonly name: string;
  readonly sides: readonly (typeof SIDES)[number][];
  /** A consent to film for lessons is in force today. */
  readonly mayBeFilmed: boolean;
}

/** One of the person's own sendings, with whose it is. */
export interface OwnUpload extends UploadRow {
  readonly playerId: Id;
  readonly playerName: string;
}
