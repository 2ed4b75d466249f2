import type { PointId } from "@/lib/measure/points";

/** From where a clip was filmed: facing the chest, behind the catcher, or from the pitcher. */
export const VIEWS = ["side", "rear", "front"] as const;
export type View = (typeof VIEWS)[number];

/** The side a swing was taken from. */
export type Side = "right" | "left";

/** Moments of a swing, in the order in which they usually come. */
export const EVENT_IDS = [
  "release", "stance", "first-move", "load", "toe", "plant", "launch", "contact", "extension", "finish",
] as const;
export type EventId = (typeof EVENT_IDS)[number];

/** A point on a frame: pixels of the upright picture as it is in the file, not flipped, y growing downward. */
export interface PlacedPoint {
  readonly x: number;
  readonly y: number;
  /** `placed`: set, corrected or confirmed by a person. */
  readonly source: "placed" | "suggested";
  /**
   * Of a place that was followed through the pictures from placed frames: SD in pixels of one coordinate that it has beside the noise of
   * those. Left out = placed by hand.
   */
  readonly followedSdPx?: number;
}

export type FramePoints = Readonly<Partial<Record<PointId, PlacedPoint>>>;

/** One clip of a swing, as far as readings need it. */
export interface ClipInput {
  /** `null` when nobody has said from where it was filmed. */
  readonly view: View | null;
  /** True when the file itself is mirrored. A fact of the file, not of how it is shown. */
  readonly mirrored: boolean;
  /** Real seconds from contact of each frame, strictly increasing; `null` when real time or contact is not known. */
  readonly secondsFromContact: readonly number[] | null;
  /** Frames that the camera took in one real second; `null` = take it from the frame times. */
  readonly captureFps: number | null;
  /** Degrees between the camera and its ideal line; `null` = not known. */
  readonly cameraOffDeg: number | null;
  /** SD of that angle where it was told from the picture; left out or null = as stated. */
  readonly cameraOffSdDeg?: number | null;
  readonly cameraMoved: boolean;
  readonly cameraZoomed: boolean;
  readonly stabilised: boolean;
  /** Pixels of this view that a metre at the hitter's depth takes, with its SD, where something of known size was marked. */
  readonly pixelsPerMetre?: { readonly value: number; readonly sd: number } | null;
  /** Size of the upright picture in pixels where known: a point outside it is out of frame. */
  readonly widthPx?: number;
  readonly heightPx?: number;
  /** Points by frame index; a frame without points may be absent. */
  readonly points: Readonly<Record<number, FramePoints>>;
}

/** A moment between frames; it belongs to the swing, whichever clip it was marked on. */
export interface SwingEvent {
  /** Real seconds from contact. */
  readonly seconds: number;
  readonly sdSeconds: number;
  /** `placed` by a person; `suggested` and not confirmed (a guess); heard in the `sound`; `computed` from a speed. */
  readonly source: "placed" | "suggested" | "sound" | "computed";
  /** Real seconds between frames of the clip on which it was marked; left out = this clip. */
  readonly framePeriodSeconds?: number | null;
}

/** The swing: what belongs to all of its clips. Facts left out are unknown, and a rule about them does not hold. */
export interface SwingInput {
  readonly side: Side;
  readonly swingKind: "power" | "two-strike" | "running-slap" | null;
  readonly task: "dry" | "tee" | "toss" | "machine" | "live" | "game" | null;
  /** Completed years on the day of the swing; `null` = the adult band. */
  readonly ageYears: number | null;
  readonly standingHeightM?: number | null;
  readonly events: Readonly<Partial<Record<EventId, SwingEvent>>>;
  readonly effort?: string | null;
  readonly pitchHeight?: string | null;
  readonly pitchSide?: string | null;
  readonly pitchSpeed?: string | null;
  readonly batClass?: string | null;
  readonly releaseSource?: string | null;
  readonly leftBox?: boolean | null;
  /** Readings of other checkpoints of this swing, by checkpoint id, for the rules that ask for one. */
  readonly swingReadings?: Readonly<Record<string, number | null>>;
}
