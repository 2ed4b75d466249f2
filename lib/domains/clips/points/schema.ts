import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";
import { pointWas } from "../schema";
import { pointIds } from "../view";

/** Points that the body has twice, front and back, in the order of the body. */
export const POINT_PAIRS = ["ear", "sh", "el", "wr", "hip", "kn", "an", "heel", "toe"] as const;
export type PointPair = (typeof POINT_PAIRS)[number];

const onFrame = { clipId: idForm, frameIndex: z.coerce.number().int().nonnegative() };
const isEachOnce = (list: readonly string[]) => new Set(list).size === list.length;

const point = z.enum(pointIds);

/** Exchanges front and back of some pairs on a frame. */
export const swapPointsForm = z.object({
  ...onFrame,
  pairs: z.array(z.enum(POINT_PAIRS)).min(1, "Say which points are exchanged.").refine(isEachOnce, "Every pair can be named once.").readonly(),
  /** What a person had said of these points when the sender looked. */
  were: z.array(z.object({ point, was: pointWas })).readonly().default([]),
});

/** Places several points of a frame together, in pixels of the upright picture; null = what a coach said of it is forgotten. */
export const placePointsForm = z.object({
  ...onFrame,
  points: z
    .array(z.object({ point, was: pointWas, place: z.object({ x: z.number(), y: z.number() }).readonly().nullable() }))
    .min(1, "Say which points.")
    .refine((list) => isEachOnce(list.map(({ point }) => point)), "Every point can be named once.")
    .readonly(),
});
