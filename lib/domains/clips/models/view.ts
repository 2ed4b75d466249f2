import type { Level } from "@/lib/core/age";
import type { Id } from "@/lib/core/ids";
import type { Sport } from "@/lib/domains/roster/rules";
import type { NearReason } from "@/lib/measure/several/near-models";
import type { SwingFacts, SwingPage } from "../schema";
import type { BattingSide, CameraView } from "../view";
import type { ModelState, RightBasis } from "./rules";

/** What is told of a model: never whose swing it is. Side and view follow from the clip. */
export interface ModelTags {
  readonly label: string;
  readonly side: BattingSide;
  readonly sport: Sport;
  /** Standing height in metres on the day it was filmed; null when nobody said. */
  readonly heightM: number | null;
  readonly level: Level;
  /** A grown body. */
  readonly isAdult: boolean;
  readonly task: SwingFacts["task"];
  readonly pitchHeight: SwingFacts["pitchHeight"];
  readonly pitchSide: SwingFacts["pitchSide"];
}

/** A model as a coach chooses one beside a player's swing. */
export interface ModelOption extends ModelTags {
  readonly id: Id;
  readonly clipId: Id;
  readonly view: CameraView;
  /** Batted from the other side: it is shown as in a mirror. */
  readonly isShownMirrored: boolean;
  /** The picture is turned, so that the hitter bats the same way: a mirrored file of a hitter from the other side is right as it is. */
  readonly isTurned: boolean;
  /** Alike in side and sport, and near in height and level. */
  readonly isMatch: boolean;
  readonly reasons: readonly NearReason[];
  /** Said beside a player who is still growing; null otherwise. */
  readonly besideChild: string | null;
  readonly posterUrl: string;
}

/** The models that can stand beside a player's swing, nearest first. */
export interface ModelsFor {
  readonly options: readonly ModelOption[];
  /** Says that none matches, and what was looked for; null when one does. */
  readonly noneMatch: string | null;
}

/** A model with its film, as it is laid beside a swing. Nothing here says whose it is: marks are left out, names are the label. */
export interface ModelFilm extends ModelTags {
  readonly id: Id;
  readonly swingKind: SwingFacts["swingKind"];
  readonly clips: SwingPage["clips"];
}

/** One line of the head coach's list. */
export interface ModelRow extends ModelTags {
  readonly id: Id;
  readonly swingId: Id;
  readonly views: readonly CameraView[];
  readonly posterUrl: string | null;
  readonly state: ModelState;
  readonly rightHolder: string;
  readonly rightBasis: RightBasis;
  /** First day on which it no longer holds. */
  readonly rightUntil: string;
  /** Whole days for which it still holds; 0 when it has ended. */
  readonly daysLeft: number;
  readonly rightNote: string;
  readonly recordedBy: string;
  readonly recordedOn: string;
  /** A withdrawal that can still be undone. */
  readonly canUndo: boolean;
}

/** What the form for keeping a swing as a model begins with. */
export interface ModelDraft {
  readonly swingId: Id;
  readonly playerName: string;
  readonly filmedOn: string;
  readonly views: readonly CameraView[];
  readonly posterUrl: string | null;
  /** The model that it is already. */
  readonly modelId: Id | null;
  /** Why it cannot be kept now, and what to do; null when it can. */
  readonly hindrance: string | null;
  readonly tags: Omit<ModelTags, "label">;
}
