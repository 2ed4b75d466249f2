import { z } from "zod";

/** Why nothing was suggested on a clip. */
export const NOT_SUGGESTED = ["off", "no-model", "no-contact", "time-unknown", "no-copy", "nobody-found", "failed"] as const;
export type NotSuggested = (typeof NOT_SUGGESTED)[number];

export const notSuggestedForm = z.enum(NOT_SUGGESTED);
export const noInputForm = z.object({});
