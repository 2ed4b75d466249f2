import type { FrameTimes } from "@/lib/core/frame-times";
import type { Id } from "@/lib/core/ids";
import type { ModelOption, ModelsFor } from "@/lib/domains/clips/models/view";
import type { NoFrame } from "@/lib/domains/clips/stills/rules";
import type { CropWindow, SheetEvent } from "@/lib/domains/clips/stills/view";
import type { BattingSide, CameraView, PointView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";

/** A reading under a cell. What it was made of stays behind: the swing view shows that. */
export interface SheetReading {
  readonly name: string;
  readonly reading: Reading;
}

/** One clip at one instant. */
export interface SheetCell {
  readonly event: SheetEvent;
  /** The frame of the clip, or why there is none. */
  readonly frame: { readonly frameIndex: number } | { readonly why: NoFrame };
  /** Real seconds from contact; null while that is not known. */
  readonly seconds: number | null;
  /** Points in force on that frame, in pixels of the upright picture. */
  readonly points: readonly PointView[];
  /** The readings of this event's column. */
  readonly readings: readonly SheetReading[];
}

/** What a row's stills are shown by. */
export interface RowPicture {
  readonly window: CropWindow;
  readonly widthPx: number;
  readonly heightPx: number;
  /** The file is a mirror image: it is shown turned back. */
  readonly isMirrored: boolean;
  /** The frames whose stills lie there, cut by this window; the others are made where the sheet is read. */
  readonly keptFrames: readonly number[];
  /** For making what is not there: the stepping copy and when its frames are shown. */
  readonly steppingUrl: string;
  readonly frameTimes: FrameTimes;
}

/** Why a clip stands on the sheet. A further kind of row is one more word here and one more source in the query. */
export type RowKind = "this" | "other" | "own-best" | "model";

/** One clip of the sheet, with a cell for each event. */
export interface SheetRow {
  readonly kind: RowKind;
  /** For a model its own id: of whose swing it is nothing is told. */
  readonly swingId: Id;
  readonly clipId: Id;
  /** What is told of a model; null for a swing of the player. */
  readonly model: ModelOption | null;
  /** YYYY-MM-DD; null for a model. */
  readonly filmedOn: string | null;
  /** Which swing of its day and side it was, first one first. */
  readonly place: { readonly of: number; readonly number: number };
  /** Frames a real second; null while the real time is not known. */
  readonly framesPerSecond: number | null;
  /** In what it was taken otherwise than this swing, in words: "at a tossed ball, this one off a tee". */
  readonly unlike: readonly string[];
  readonly picture: RowPicture;
  readonly cells: readonly SheetCell[];
}

/** One thing over the last swings taken alike. */
export interface SheetCount {
  readonly id: string;
  readonly name: string;
  readonly seen: number;
  /** Swings that show it, whichever way. */
  readonly judged: number;
  /** Swings that do not show it: never counted as not seen. */
  readonly notVisible: number;
  /** Swings in which nobody has looked for it yet. */
  readonly notLooked: number;
  /** Never from one swing or two. */
  readonly isHabit: boolean;
}

/** Counts by the event under which they stand. */
export type CountsByEvent = Readonly<Partial<Record<SheetEvent, readonly SheetCount[]>>>;

/** A swing that can be laid beside this one. */
export interface SheetChoice {
  readonly swingId: Id;
  readonly filmedOn: string;
  readonly place: SheetRow["place"];
  readonly unlike: readonly string[];
  readonly isChosen: boolean;
}

/** The models that may lie beside this swing, nearest first, and the one that does. */
export interface SheetModels extends ModelsFor {
  readonly chosenId: Id | null;
  /** One was asked for that may not be shown, or not any more: which of the two is not said. */
  readonly isGone: boolean;
}

export interface SheetView {
  readonly swingId: Id;
  readonly clipId: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly side: BattingSide;
  readonly view: CameraView;
  /** How the swing was taken: "off a tee, at a belt-high ball". */
  readonly takenWords: string;
  /** The clips of this swing, for choosing the view. */
  readonly clips: readonly { readonly clipId: Id; readonly view: CameraView }[];
  /** The swing kept as own best for this side and view; null when none is. */
  readonly ownBest: { readonly id: Id; readonly isThis: boolean } | null;
  readonly rows: readonly SheetRow[];
  readonly choices: readonly SheetChoice[];
  readonly models: SheetModels;
  /** Over how many swings taken alike the counts go, this one among them. */
  readonly countedSwings: number;
  /** What coaches called, and what the readings say, each by event. */
  readonly called: CountsByEvent;
  readonly read: CountsByEvent;
  /** Swings that were asked for and are not this player's from this side and view: left out. */
  readonly strangeCount: number;
  /** More were asked for than fit on a page. */
  readonly isCutShort: boolean;
}

/** What the page gets: without a consent in force nothing of the film is shown. */
export type SheetPage = { readonly isShown: false; readonly playerId: Id; readonly playerName: string } | ({ readonly isShown: true } & SheetView);
