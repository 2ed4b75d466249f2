import type { NotSuggested } from "./schema";

/** Whether points are suggested on a clip, and why not. */
export type Suggesting =
  /** The model has not looked yet; it will once contact is known. */
  | { readonly is: "waiting" }
  /** It looked at so many frames and found the hitter on so many of them. */
  | { readonly is: "done"; readonly frames: number; readonly found: number; readonly model: string; readonly version: string }
  | { readonly is: "not"; readonly why: NotSuggested };

/** How far suggested points lay from where coaches put them: one joint in one view. */
export interface SuggestionErrorRow {
  readonly view: string;
  /** The point's name without front and back. */
  readonly joint: string;
  /** Suggestions of which a coach has placed the point. */
  readonly answered: number;
  /** Of these taken exactly as they were. */
  readonly taken: number;
  /** Of those that were moved: the distance, in pixels of the picture and in parts of the torso; null when none was. */
  readonly medianPx: number | null;
  readonly p95Px: number | null;
  readonly medianTorso: number | null;
  readonly p95Torso: number | null;
}

/** The running measure, with how often a coach had to exchange front and back. */
export interface SuggestionErrors {
  readonly rows: readonly SuggestionErrorRow[];
  /** Suggested points whose front and back a coach exchanged. */
  readonly exchangedByHand: number;
  readonly models: readonly string[];
}
