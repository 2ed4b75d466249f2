import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Something waits for somebody: who has mail is told so, and no more than that. */
export const noticeWritten = defineEvent("roster.notice-written", z.object({ userId: z.uuid() }));
