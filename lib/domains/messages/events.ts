import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Every five minutes: what waited for the hours in which messages go out is looked for. */
export const messagesDue = defineEvent("messages.due", z.object({}), "*/5 * * * *");
