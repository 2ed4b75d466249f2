import { z } from "zod";
import { FILMED_RATES } from "@/lib/core/filmed-rate";
import type { Id } from "@/lib/core/ids";
import { dayForm, idForm } from "@/lib/domains/roster/schema";
import { eventIds, pointIds, type BattingSide, type ClipView } from "./view";

/** The closed lists of what no file says of a swing. The first of each is where a form begins. */
export const SIDES = ["right", "left"] as const;
export const VIEWS = ["side", "rear", "front"] as const;
export const TASKS = ["tee", "toss", "machine", "live", "game", "dry"] as const;
export const EFFORTS = ["practice", "game", "feel"] as const;
export const PITCH_HEIGHTS = ["belt", "high", "low", "unknown"] as const;
export const PITCH_SIDES = ["middle", "inside", "away", "unknown"] as const;
export const PITCH_SPEEDS = ["unknown", "slow", "game", "fast"] as const;
export const BAT_CLASSES = ["usual", "lighter", "heavier", "shorter", "other"] as const;
export const SWING_KINDS = ["power", "two-strike", "running-slap"] as const;

const one = <const T extends readonly [string, ...string[]]>(list: T, what: string) => z.enum(list, { error: `Say ${what}.` });
const ticked = z.preprocess((value) => value === "on" || value === true || value === "true", z.boolean());
const degrees = z.preprocess(
  (value) => (value === "" || value === null || value === undefined ? null : value),
  z.coerce.number({ error: "Write the angle in degrees." }).min(0, "Write the angle in degrees, from 0.").max(90, "Write the angle in degrees, 90 at most.").nullable(),
);

const swingFacts = {
  side: one(SIDES, "from which side the swing was taken"),
  swingKind: one(SWING_KINDS, "what kind of swing it is"),
  task: one(TASKS, "what was hit"),
  effort: one(EFFORTS, "how hard"),
  pitchHeight: one(PITCH_HEIGHTS, "how high the ball was"),
  pitchSide: one(PITCH_SIDES, "on which side the ball was"),
  pitchSpeed: one(PITCH_SPEEDS, "how fast the ball was"),
  batClass: one(BAT_CLASSES, "which bat it was"),
};
const cameraFacts = {
  view: one(VIEWS, "from where it was filmed"),
  isMirrored: ticked,
  filmedRate: one(FILMED_RATES, "how fast it was filmed"),
  hasCameraMoved: ticked,
  hasCameraZoomed: ticked,
  isStabilised: ticked,
  cameraOffDeg: degrees,
};

/** What no file says, asked once and kept with the upload until it has become a clip. */
export const uploadFactsForm = z.object({ ...swingFacts, ...cameraFacts, filmedOn: dayForm });
export type UploadFacts = z.infer<typeof uploadFactsForm>;
export type SwingFacts = Pick<UploadFacts, keyof typeof swingFacts>;

const hash = z.string().regex(/^[0-9a-f]{64}$/);
export const beginUploadForm = z.object({
  playerId: idForm,
  ...uploadFactsForm.shape,
  byteLength: z.coerce.number().int().min(1, "The file is empty: it holds no bytes."),
  /** SHA-256 of the bytes where the browser could work it out. */
  contentHash: hash.nullable().default(null),
  /** The swing of which this is another camera; empty for a swing of its own. */
  swingId: z.union([z.literal("").transform(() => null), idForm.nullable()]).default(null),
});
export const uploadIdForm = z.object({ uploadId: idForm });
export const playerIdForm = z.object({ playerId: idForm });
export const swingIdForm = z.object({ swingId: idForm });
export const clipIdForm = z.object({ clipId: idForm });
/** Clips to lay beside one of a swing, three at most; the swing's own clip may be named. */
export const besideForm = z.object({ swingId: idForm, clipId: idForm.optional(), withIds: z.array(idForm).max(3).default([]) });
export const listSwingsForm = z.object({ playerId: idForm, side: z.enum(SIDES).optional(), after: idForm.optional() });

const frameIndex = z.coerce.number().int().nonnegative();
export const stillForm = z.object({ clipId: idForm, frameIndex });
const event = z.enum(eventIds);
const px = z.number();
/** Where a person had set the event when the sender looked, null nowhere. Left out, whatever stands there gives way. */
const eventWas = z.strictObject({ clipId: idForm, frameIndex }).nullable().optional();
/** What a person had said of the point when the sender looked, null nothing. Left out, whatever stands there gives way. */
export const pointWas = z.union([z.literal("unseen"), z.strictObject({ x: px, y: px })]).nullable().optional();
export type EventWas = z.infer<typeof eventWas>;
export type PointWas = z.infer<typeof pointWas>;
export const setEventForm = z.object({ clipId: idForm, event, frameIndex, was: eventWas });
export const clearEventForm = z.object({ clipId: idForm, event, was: eventWas });
export const pointForm = z.object({ clipId: idForm, frameIndex, point: z.enum(pointIds), was: pointWas });
export const placePointForm = pointForm.extend({ x: px, y: px });

/** At most so many places make a pen's stroke: enough for a hand, little enough to keep. */
export const MOST_PEN_PLACES = 200;

const v = z.literal(1);
const shape = z.discriminatedUnion("kind", [
  z.strictObject({ v, kind: z.literal("line"), x1: px, y1: px, x2: px, y2: px }),
  z.strictObject({ v, kind: z.literal("angle"), x1: px, y1: px, x2: px, y2: px, x3: px, y3: px }),
  z.strictObject({ v, kind: z.literal("pen"), places: z.array(z.tuple([px, px]).readonly()).min(2).max(MOST_PEN_PLACES, "That is more than a pen's stroke can keep.").readonly() }),
  z.strictObject({ v, kind: z.literal("ring"), cx: px, cy: px, rx: px.positive(), ry: px.positive() }),
  z.strictObject({ v, kind: z.literal("words"), x: px, y: px, text: z.string().trim().min(1, "Write the words.").max(120, "Keep the words below 120 letters.") }),
]);
/** What is drawn on a frame; every shape carries the version of its form. */
export const markShapeForm = shape;
export const addMarkForm = z.object({ clipId: idForm, frameIndex, shape });
export const markIdForm = z.object({ markId: idForm });
export const setClipFactsForm = z.object({ clipId: idForm, ...cameraFacts });

/** How it is known where the camera stood: a person said it, home plate was marked, or the body at the stance told it. */
export const CAMERA_LINE_SOURCES = ["stated", "plate", "widths"] as const;
/** Home plate as marked on a frame: five corners in any order, in pixels of the upright picture. */
export const plateMarkForm = z.strictObject({ v: z.literal(1), frameIndex, corners: z.array(z.strictObject({ x: px, y: px })).length(5, "Home plate has five corners.") });
export type PlateMark = z.infer<typeof plateMarkForm>;
/** Where the camera stood: stated in degrees, from home plate, from the body, or taken back. */
export const setCameraLineForm = z.discriminatedUnion("source", [
  z.object({ clipId: idForm, source: z.literal("stated"), offDeg: z.coerce.number({ error: "Write the angle in degrees." }).min(0, "Write the angle in degrees, from 0.").max(90, "Write the angle in degrees, 90 at most.") }),
  z.object({ clipId: idForm, source: z.literal("plate"), plateMark: plateMarkForm }),
  z.object({ clipId: idForm, source: z.literal("widths") }),
  z.object({ clipId: idForm, source: z.literal("unknown") }),
]);
export type CameraLineInput = z.infer<typeof setCameraLineForm>;
/** How file time becomes real time, as a coach says it; `measured` and `unknown` only go back to what was. */
export const setClipTimeForm = z.object({
  clipId: idForm,
  realSecondsPerFileSecond: z.number().gt(0).max(1, "No phone plays faster than it filmed."),
  timeBasis: z.enum(["measured", "stated", "unknown"]).default("stated"),
});

/** What the camera did, apart from what it filmed. */
export interface CameraFacts {
  readonly hasCameraMoved: boolean;
  readonly hasCameraZoomed: boolean;
  readonly isStabilised: boolean;
  readonly cameraOffDeg: number | null;
  /** One standard deviation in degrees; null when a person stated the angle, or nobody did. */
  readonly cameraOffSdDeg: number | null;
  readonly cameraOffSource: (typeof CAMERA_LINE_SOURCES)[number] | null;
  /** The marked home plate; null when it is not marked. */
  readonly plateMark: PlateMark | null;
}

/** What a person who begins to send a file learns. */
export interface BegunUpload {
  readonly uploadId: Id;
  /** Some bytes of the same file arrived before: go on from there. */
  readonly isResumed: boolean;
  /** The same bytes are a clip of this player already: nothing needs to be sent. */
  readonly swingId: Id | null;
}

/** One swing with its clips, as the swing view and the readings need it. */
export interface SwingPage {
  readonly id: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly side: BattingSide;
  readonly filmedOn: string;
  readonly facts: SwingFacts;
  /** Completed years on the day it was filmed. */
  readonly ageYears: number;
  readonly heightM: number | null;
  /** False when no consent for lessons is in force: then nothing of the film is shown. */
  readonly isShown: boolean;
  readonly clips: readonly { readonly clip: ClipView; readonly camera: CameraFacts }[];
}

/** One swing in a list. */
export interface SwingRow {
  readonly id: Id;
  readonly clipId: Id;
  readonly side: BattingSide;
  readonly view: (typeof VIEWS)[number];
  readonly task: (typeof TASKS)[number];
  readonly filmedOn: string;
  readonly hasContact: boolean;
  readonly placedPointCount: number;
  readonly posterUrl: string | null;
}

/** A swing that another camera may join, as the form offers it. */
export interface SwingToJoin {
  readonly id: Id;
  readonly filmedOn: string;
  readonly facts: SwingFacts;
  /** The views it has. */
  readonly views: readonly (typeof VIEWS)[number][];
  /** The time of day at the academy when it was added, "3:10 PM": it tells two swings of a day apart. */
  readonly addedAt: string;
}

/** One sending of a file, while it has not become a clip, or shortly after. */
export interface UploadRow {
  readonly id: Id;
  readonly state: "receiving" | "checking" | "ready" | "refused";
  readonly sentAt: string;
  readonly byteLength: number;
  readonly refusal: string | null;
  readonly wasKnown: boolean;
  /** Refused through no fault of the file: its bytes are here and can be looked at once more. */
  readonly canRetry: boolean;
  /** Its one picture, there before it can be stepped. */
  readonly posterUrl: string | null;
  readonly swingId: Id | null;
}

/** Addresses of a clip's pictures; every one of them asks who is there before it answers. */
export const clipAddress = {
  stepping: (clipId: Id) => `/api/media/clips/${clipId}/stepping`,
  poster: (clipId: Id) => `/api/media/clips/${clipId}/poster`,
  arrivingPoster: (uploadId: Id) => `/api/media/uploads/${uploadId}/poster`,
  still: (clipId: Id, frame: number) => `/api/media/clips/${clipId}/stills/${frame}`,
};
