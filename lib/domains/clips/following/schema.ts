import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";
import { FOLLOWED_POINTS } from "@/lib/measure/following/bat-course";
import { MOST_FRAMES_APART } from "@/lib/measure/following/follow-bat";
import { pointWas } from "../schema";

/** Both ends of the bat on every frame between two placed ones. */
const MOST_PLACES = FOLLOWED_POINTS.length * (MOST_FRAMES_APART - 1);

/** Takes over what was followed through the pictures, with its own SD in pixels of the upright picture; null = it is forgotten. */
export const placeFollowedForm = z.object({
  clipId: idForm,
  places: z
    .array(
      z.object({
        frameIndex: z.coerce.number().int().nonnegative(),
        point: z.enum(FOLLOWED_POINTS),
        was: pointWas,
        place: z.object({ x: z.number(), y: z.number(), followedSdPx: z.number().nonnegative() }).readonly().nullable(),
      }),
    )
    .min(1, "Say which places.")
    .max(MOST_PLACES, `More than ${MOST_PLACES} places are not taken at once.`)
    .refine((list) => new Set(list.map(({ frameIndex, point }) => `${frameIndex} ${point}`)).size === list.length, "Every place can be named once.")
    .readonly(),
});
