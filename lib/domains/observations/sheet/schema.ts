import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";

/** Beside the swing itself and the player's own best, at most so many others fit on one printed page. */
export const MOST_OTHERS = 3;

const emptyAsMissing = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === null ? undefined : value), form.optional());
/** Which sheet is looked at: a swing, one of its clips, the swings beside it (left out, the newest one like it), and a model. */
export const checkpointSheetForm = z.object({ swingId: idForm, clipId: emptyAsMissing(idForm), withIds: z.array(idForm).max(24).optional(), modelId: emptyAsMissing(idForm) });

export const keepOwnBestForm = z.object({ playerId: idForm, clipId: idForm });
export const takeBackOwnBestForm = z.object({ playerId: idForm, ownBestId: idForm });
