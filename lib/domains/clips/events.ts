import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** All bytes of an upload have arrived; whether they are a video is not known yet. */
export const uploadReceived = defineEvent("clips.upload-received", z.object({ uploadId: z.string() }));

/** An event, a point or a fact of a swing has changed, or a clip was added: its readings are to be made anew. */
export const swingChanged = defineEvent("clips.swing-changed", z.object({ swingId: z.string() }));
