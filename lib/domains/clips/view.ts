import type { Id } from "@/lib/core/ids";
import type { FrameTimes, TimeBasis } from "@/lib/core/frame-times";

/** Where the camera stood. */
export type CameraView = "side" | "rear" | "front";

/** The side the swing was taken from. */
export type BattingSide = "right" | "left";

/** The instants of a swing, in the order in which they happen. */
export const eventIds = ["release", "stance", "first-move", "load", "toe", "plant", "launch", "contact", "extension", "finish"] as const;
export type EventId = (typeof eventIds)[number];

/** The points of body and bat; `_f` is front (nearer the pitcher at set-up), `_b` is back. */
export const pointIds = [
  "nose", "ear_f", "ear_b", "sh_f", "sh_b", "el_f", "el_b", "wr_f", "wr_b", "hip_f", "hip_b",
  "kn_f", "kn_b", "an_f", "an_b", "heel_f", "heel_b", "toe_f", "toe_b", "knob", "tip", "helmet",
] as const;
export type PointId = (typeof pointIds)[number];

/** Who said it: a coach by hand, or the program as a suggestion nobody has confirmed. */
export type Source = "coach" | "suggested";

/** An event of the swing as it falls on this clip. */
export interface EventView {
  readonly event: EventId;
  /** Nearest frame of this clip, null when the event lies outside it or cannot be placed on it. */
  readonly frameIndex: number | null;
  /**
   * The instant in ticks of this clip's time base; may lie between frames when it was set on another clip. Null while
   * the two clips cannot be lined up: contact is not set, or the real time not known, on one of them.
   */
  readonly tick: number | null;
  readonly source: Source;
  /** One standard deviation in real seconds, null when nobody said. */
  readonly sdSeconds: number | null;
  /** Where it was set, when that was on another clip of the swing. */
  readonly elsewhere?: EventElsewhere;
}

/** An event as it stands on the clip on which it was set. */
export interface EventElsewhere {
  readonly clipId: string;
  readonly view: CameraView;
  readonly frameIndex: number;
  /** Real seconds from that clip's own contact; null when it has none, or no real time. */
  readonly secondsFromContact: number | null;
}

/** A point in pixels of the upright picture, from its upper left corner; pixel centres lie at halves. */
export interface PointView {
  readonly frameIndex: number;
  readonly point: PointId;
  readonly x: number;
  readonly y: number;
  readonly source: Source;
  /**
   * Followed through the pictures from placed frames and taken by a coach: SD in pixels of one coordinate beside the noise of those
   * frames. Left out = placed by hand, or suggested.
   */
  readonly followedSdPx?: number;
}

/** A point of which the coach said that it cannot be seen on a frame. */
export interface UnseenPointView {
  readonly frameIndex: number;
  readonly point: PointId;
}

/** What a coach drew, in pixels of the upright picture, so that it opens alike at every window size. */
export type MarkShape =
  | { readonly v: 1; readonly kind: "line"; readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number }
  /** Two arms from the ends 1 and 3 to the corner 2. */
  | { readonly v: 1; readonly kind: "angle"; readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number; readonly x3: number; readonly y3: number }
  | { readonly v: 1; readonly kind: "pen"; readonly places: readonly (readonly [number, number])[] }
  | { readonly v: 1; readonly kind: "ring"; readonly cx: number; readonly cy: number; readonly rx: number; readonly ry: number }
  | { readonly v: 1; readonly kind: "words"; readonly x: number; readonly y: number; readonly text: string };

/** A drawing that belongs to one frame of the clip. */
export interface MarkView {
  readonly id: string;
  readonly frameIndex: number;
  readonly shape: MarkShape;
}

/** What the person who looks may do; worked out by the policy, never by the page. */
export interface ClipAbilities {
  /** Set events, place points. */
  readonly canMeasure: boolean;
  /** Draw on frames. */
  readonly canMark: boolean;
}

/** What the coach said of the swing when the clip was added; null is not said. */
export interface SwingFactsView {
  readonly task: string | null;
  readonly pitchHeight: string | null;
  readonly pitchSide: string | null;
  readonly effort: string | null;
}

/** One clip as the swing view needs it. */
export interface ClipView {
  readonly id: string;
  readonly swingId: string;
  readonly playerId: string;
  readonly playerName: string;
  readonly view: CameraView;
  /** True when the file itself is mirrored. */
  readonly isMirrored: boolean;
  readonly side: BattingSide;
  readonly facts: SwingFactsView;
  /** Size of the upright picture; all points and marks are in its pixels. The stepping copy may be smaller. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frameTimes: FrameTimes;
  /** Real seconds that pass for one second of file time. */
  readonly realSecondsPerFileSecond: number;
  readonly timeBasis: TimeBasis;
  readonly steppingUrl: string;
  readonly posterUrl: string | null;
  readonly events: readonly EventView[];
  readonly points: readonly PointView[];
  readonly unseenPoints: readonly UnseenPointView[];
  readonly marks: readonly MarkView[];
  readonly abilities: ClipAbilities;
}

/** One clip as it stands beside others, with what makes it unlike the first of them. */
export interface ClipBeside {
  readonly clip: ClipView;
  /** False when no consent for lessons is in force: then nothing of the film is shown. */
  readonly isShown: boolean;
  /** A model's picture begins flipped where its hitter would look the other way than the first clip's. */
  readonly startsFlipped: boolean;
  /** A model's film: it is shown to coaches only, and of its hitter nothing is told. */
  readonly isModel?: boolean;
  /** Why nothing is shown, as a sentence, where it is not for want of a consent. */
  readonly whyNotShown?: string;
  /** What stands in the corner of its picture: "This swing", "18 Nov, from behind". */
  readonly caption: string;
  /** In what it is unlike the first clip, in words: "At a tossed ball, the first one off a tee". */
  readonly unlike: readonly string[];
  /** Facts on which it agrees with the first clip only in that nobody noted them. */
  readonly notNoted: readonly string[];
}

/** A clip that may be laid beside. */
export interface BesideChoice {
  readonly clipId: string;
  readonly words: string;
  readonly hasContact: boolean;
  readonly unlike: readonly string[];
}

/** Choices of one kind under their title: other cameras, the player's other swings. */
export interface BesideGroup {
  readonly id: string;
  readonly title: string;
  readonly choices: readonly BesideChoice[];
}

/** A frame with what the coach drew on it, in pixels of the upright picture. */
export interface MarkedFrame {
  readonly clipId: Id;
  readonly frameIndex: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly marks: readonly MarkShape[];
  /** Null while no consent for lessons is in force: then the picture is not shown. */
  readonly url: string | null;
}
