import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Somebody is due a letter with a link. The link's secret is made when the letter is, so that it waits nowhere. */
export const letterDue = defineEvent("identity.letter-due", z.object({ userId: z.uuid(), purpose: z.enum(["invitation", "reset"]) }));
