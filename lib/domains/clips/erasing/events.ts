import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** No clip rests on a file any more: its bytes and all that was made of them go. */
export const fileDropped = defineEvent("clips.file-dropped", z.object({ academyId: z.string(), contentHash: z.string() }));

/** A clip is gone for good: what later domains made of its pictures goes, too. */
export const clipErased = defineEvent("clips.clip-erased", z.object({ academyId: z.string(), clipId: z.string() }));
