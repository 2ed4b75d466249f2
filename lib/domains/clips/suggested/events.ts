import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** A clip has an event by which frames can be chosen, or another one than before: points may be suggested. `again` = 1: although all was looked at. */
export const suggestionsWanted = defineEvent("clips.suggestions-wanted", z.object({ clipId: z.string(), again: z.number() }));
