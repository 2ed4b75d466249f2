import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** A film is kept that is long enough for several swings, or somebody asks: they are to be looked for. */
export const filmKept = defineEvent("clips.film-kept", z.object({ academyId: z.string(), fileId: z.string() }));
