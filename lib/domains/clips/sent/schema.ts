import { z } from "zod";
import { FILMED_RATES } from "@/lib/core/filmed-rate";
import type { PlainSentence } from "@/lib/core/words/say";
import { idForm } from "@/lib/domains/roster/schema";
import { beginUploadForm, SIDES, TASKS, VIEWS, markShapeForm } from "../schema";
import { MOST_WORDS, MOST_ANSWER } from "./rules";

/** What a family says of a clip: little, since most of what coaches note is not for a child to know. */
export const beginSentForm = z.object({
  playerId: idForm,
  side: z.enum(SIDES, { error: "Say from which side you hit." }),
  view: z.enum(VIEWS, { error: "Say from where it was filmed." }),
  task: z.enum(TASKS, { error: "Say what was hit." }),
  filmedRate: z.enum(FILMED_RATES, { error: "Say whether it is slow motion." }),
  words: z.string().trim().max(MOST_WORDS, `Keep it below ${MOST_WORDS} letters.` as const satisfies PlainSentence).default(""),
  byteLength: beginUploadForm.shape.byteLength,
  contentHash: beginUploadForm.shape.contentHash,
});
export type BeginSent = z.infer<typeof beginSentForm>;

export const nothing = z.object({});
export const sentIdForm = z.object({ sentId: idForm });
export const answerForm = z.object({
  sentId: idForm,
  clipId: idForm,
  frameIndex: z.coerce.number().int().nonnegative(),
  words: z.string().trim().min(1, "Write a sentence or two.").max(MOST_ANSWER, `Keep it below ${MOST_ANSWER} letters.`),
  /** The homework that it shows done right; empty for none. */
  planDrillId: z.union([z.literal("").transform(() => null), idForm.nullable()]).default(null),
});
export type Answer = z.infer<typeof answerForm>;

/** The marks of the answer's frame as they stood, with the size of the picture they stand on. */
export const answerMarksForm = z.object({ v: z.literal(1), widthPx: z.number().int().positive(), heightPx: z.number().int().positive(), shapes: z.array(markShapeForm) });
