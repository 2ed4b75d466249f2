import { z } from "zod";
import type { Id } from "@/lib/core/ids";
import { idForm } from "@/lib/domains/roster/schema";
import { SIDES } from "../schema";

const toSide = z.enum(SIDES).optional();
export const moveSwingForm = z.object({ swingId: idForm, toPlayerId: idForm, toSide });
export const moveUploadForm = z.object({ uploadId: idForm, toPlayerId: idForm, toSide });
export const joinSwingsForm = z.object({ swingId: idForm, intoSwingId: idForm });
export const partClipForm = z.object({ swingId: idForm, clipId: idForm });
export const swingClipsForm = z.object({ swingId: idForm });

/** What was done when a swing changed hands, so that it can be taken back. */
export interface MovedSwing {
  readonly swingId: Id;
  readonly fromPlayerId: Id;
  readonly fromSide: (typeof SIDES)[number];
}

/** One clip of a swing, as the page that sorts clips shows it. */
export interface SortedClip {
  readonly id: Id;
  readonly view: "side" | "rear" | "front";
  /** Null while no consent is in force. */
  readonly posterUrl: string | null;
  readonly frameCount: number;
  /** True when it is a stretch of a longer film. */
  readonly isStretch: boolean;
  readonly placedPointCount: number;
}

/** A swing with what may be done with its clips. */
export interface SwingToSort {
  readonly swingId: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly side: (typeof SIDES)[number];
  readonly filmedOn: string;
  readonly isShown: boolean;
  /** It is shown as a model: then it stays where it is. */
  readonly isModel: boolean;
  readonly clips: readonly SortedClip[];
  /** Other swings of the player from the same day and side, newest first. */
  readonly others: readonly { readonly id: Id; readonly addedAt: string; readonly task: string; readonly views: readonly string[]; readonly posterUrl: string | null }[];
}
