import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Once an hour: what was left behind on the way is looked for. */
export const leftoversDue = defineEvent("clips.leftovers-due", z.object({}), "23 * * * *");
