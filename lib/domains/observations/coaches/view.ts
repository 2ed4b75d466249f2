import type { Id } from "@/lib/core/ids";
import type { Sight } from "@/lib/reason/types";

/** One coach's view of one swing. */
export interface CoachColumn {
  readonly coachId: Id;
  readonly name: string;
  /** What would come first by this coach's calls alone, with the readings; at most three. */
  readonly first: readonly string[];
  /** "not enough seen" and the like, where no order comes of it. */
  readonly why: string | null;
}

export interface CoachViewsView {
  readonly playerId: Id;
  readonly playerName: string;
  readonly swingId: Id;
  readonly coaches: readonly CoachColumn[];
  /** What they differ in first, then what they agree on. */
  readonly rows: readonly { readonly faultId: string; readonly name: string; readonly isDifferent: boolean; readonly states: readonly (Sight | null)[] }[];
}
