import { z } from "zod";
import { defineEvent } from "@/lib/core/event";

/** Somebody wants a walkthrough as a film that plays anywhere. */
export const filmAsked = defineEvent("walkthroughs.film-asked", z.object({ walkthroughId: z.uuid() }));
/** The small stills with which a walkthrough begins are wanted. */
export const openingWanted = defineEvent("walkthroughs.opening-wanted", z.object({ walkthroughId: z.uuid() }));
/** A voice or a film is named by nothing any more; its bytes may go. */
export const bytesDropped = defineEvent("walkthroughs.bytes-dropped", z.object({ key: z.string().regex(/^[0-9a-f-]{36}\/walkthroughs\/[0-9a-z./-]+$/) }));
