import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** An event or a point of a swing has changed, or a clip was added: its stills are to be cut anew. */
export const stillsChanged = defineEvent("clips.stills-changed", z.object({ swingId: z.string() }));
