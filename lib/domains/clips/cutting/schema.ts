import { z } from "zod";
import type { FrameTimes } from "@/lib/core/frame-times";
import type { Id } from "@/lib/core/ids";
import { idForm } from "@/lib/domains/roster/schema";
import { PITCH_HEIGHTS, PITCH_SIDES, SIDES, TASKS, type SwingFacts } from "../schema";
import { MOST_CUTS, type Cut } from "./rules";

export const filmToCutForm = z.object({ clipId: idForm });

const frame = z.number().int().nonnegative();
const cut = z.object({
  firstFrame: frame,
  lastFrame: frame,
  contactFrame: frame.nullable(),
  playerId: idForm,
  side: z.enum(SIDES).optional(),
  task: z.enum(TASKS).optional(),
  pitchHeight: z.enum(PITCH_HEIGHTS).optional(),
  pitchSide: z.enum(PITCH_SIDES).optional(),
});
export type CutInput = z.infer<typeof cut>;
export const cutClipForm = z.object({ clipId: idForm, cuts: z.array(cut).min(1, "Keep at least one swing.").max(MOST_CUTS, `At most ${MOST_CUTS} swings are cut at once.`) });

/** What was found in a film, as it is kept: a version, then swings in seconds from the first frame, and motion for the eye. */
export const foundForm = z.object({
  v: z.literal(1),
  swings: z.array(z.object({ contactSeconds: z.number(), fromSeconds: z.number(), toSeconds: z.number(), by: z.enum(["both", "motion", "sound"]), score: z.number() })),
  /** Evenly spaced over the film, 0 to 1. */
  motion: z.array(z.number()),
  /** Sudden sounds, seconds from the first frame. */
  sounds: z.array(z.number()),
});
export type FoundInFilm = z.infer<typeof foundForm>;

/** A film that is cut, as the page needs it. */
export interface FilmToCut {
  readonly clipId: Id;
  readonly swingId: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly facts: SwingFacts;
  readonly frameTimes: FrameTimes;
  readonly realSecondsPerFileSecond: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly steppingUrl: string;
  /** What was found; null while nobody has looked yet. */
  readonly found: FoundInFilm | null;
  readonly offered: readonly Cut[];
  /** Something was placed on the whole film: then it stays, and cuts are for its own player only. */
  readonly isWorkedOn: boolean;
}

/** What became of a film that was cut. */
export interface CutFilm {
  readonly swingIds: readonly Id[];
  readonly isWholeKept: boolean;
}
