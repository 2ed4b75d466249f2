import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";
import { lengthProblem } from "./rules";

/** Words of a message as they are kept: line ends of one kind, nothing around them. */
const wordsForm = z
  .string({ error: "Write something first." })
  .transform((text) => text.replace(/\r\n?/g, "\n").trim())
  .superRefine((text, context) => {
    const problem = lengthProblem(text);
    if (problem) context.addIssue({ code: "custom", message: problem });
  });

export const playerIdForm = z.object({ playerId: idForm });
export const threadForm = z.object({ playerId: idForm, after: idForm.optional() });
/** The page gives each message its number, so that what is sent twice is kept once. */
export const writeForm = z.object({ playerId: idForm, messageId: idForm, words: wordsForm });
export const takeBackForm = z.object({ messageId: idForm });
export const listUnansweredForm = z.object({ playerIds: z.array(idForm).max(200) });
