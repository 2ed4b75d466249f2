import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** No clip rests on a file any more: its bytes and all that was made of them go. */
export const fileDropped = defineEvent("clips.file-dropped", z.object({ academyId: z.string(), contentHash: z.string() }));
