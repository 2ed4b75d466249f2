import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";

/** Beside the swing itself and the player's own best, at most so many others fit on one printed page. */
export const MOST_OTHERS = 3;

const emptyAsMissing = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === null ? undefined : value), form.optional());
/** Swings by their ids, as a list or parted by commas; "none" asks for none. */
const swingIds = z.preprocess(
  (value) => (value === undefined || value === null ? undefined : [value].flat().flatMap((part) => String(part).split(",")).filter((part) => part !== "" && part !== "none")),
  z.array(idForm).max(24).optional(),
);

/** Which sheet is looked at: a swing, one of its clips, and the swings beside it; left out, the newest one like it. */
export const checkpointSheetForm = z.object({ swingId: idForm, clipId: emptyAsMissing(idForm), withIds: swingIds });

export const keepOwnBestForm = z.object({ playerId: idForm, clipId: idForm });
export const takeBackOwnBestForm = z.object({ playerId: idForm, ownBestId: idForm });
