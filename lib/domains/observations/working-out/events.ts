import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Somebody looks at an order that is too wide to work out at once, or whose steadiness nobody knows yet. */
export const workAsked = defineEvent("observations.work-asked", z.object({ workId: z.string() }));
