import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Once an hour: clips that wait too long for an answer are looked for. */
export const waitingDue = defineEvent("clips.waiting-due", z.object({}), "41 * * * *");
