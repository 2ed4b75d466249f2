import type { FrameTimes, TimeBasis } from "@/lib/core/frame-times";
import type { CameraView, EventView, PointView } from "../view";

/** The instants that stand side by side on a sheet, in the order of the swing. */
export const sheetEvents = ["load", "toe", "plant", "launch", "contact", "extension", "finish"] as const;
export type SheetEvent = (typeof sheetEvents)[number];

/** The part of a clip's picture that its stills show, in whole pixels of the upright picture: one for all stills of the clip, so that movement stays visible. */
export interface CropWindow {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A clip as far as its stills go. */
export interface PicturedClip {
  readonly id: string;
  readonly swingId: string;
  readonly view: CameraView;
  readonly isMirrored: boolean;
  /** Size of the upright picture. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frameTimes: FrameTimes;
  readonly realSecondsPerFileSecond: number;
  readonly timeBasis: TimeBasis;
  readonly frameCount: number;
  /** The swing's events as they fall on this clip. */
  readonly events: readonly EventView[];
  /** The points in force on the frames of the sheet's events. */
  readonly points: readonly PointView[];
  readonly window: CropWindow;
}
