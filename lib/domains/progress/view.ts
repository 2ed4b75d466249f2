import type { Id } from "@/lib/core/ids";
import type { Trend } from "./rules";

/** One instant of the swing, then and now. */
export interface ThenAndNow {
  readonly event: "plant" | "contact";
  readonly oldUrl: string;
  readonly newUrl: string;
}

/** Two own swings filmed from one side, the older first; nothing is said of which is better. */
export interface SwingPair {
  readonly oldDay: string;
  readonly newDay: string;
  readonly instants: readonly ThenAndNow[];
}

/** Own old and new, and whether the one thing has changed. */
export interface MySwingView {
  readonly playerId: Id;
  readonly givenName: string;
  readonly sides: readonly ("right" | "left")[];
  readonly side: "right" | "left";
  /** False when no consent to film is in force: then neither pictures nor what was read from films is shown. */
  readonly isPermitted: boolean;
  /** False below eleven: then the page holds no numbers. */
  readonly showsNumbers: boolean;
  /** Null while there are not two such swings. */
  readonly pair: SwingPair | null;
  /** The one thing of the newest note of this side; null before the first. */
  readonly oneThing: string | null;
  /** Null when nothing that can be measured belongs to the one thing. */
  readonly trend: Trend | null;
}
