import { z } from "zod";
import type { PlainSentence } from "@/lib/core/words/say";
import { SIDES } from "@/lib/domains/clips/schema";
import { dayForm, idForm } from "@/lib/domains/roster/schema";
import { MOST_A_DAY, MOST_A_DAY_WORDS } from "./rules";

const emptyAsMissing = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === null ? undefined : value), form.optional());
const countSentence: PlainSentence = "Write how many you did, as a whole number.";

const homework = { planDrillId: idForm, day: emptyAsMissing(dayForm) };

/** One tap: the drill, and today unless a day is named. */
export const logPracticeForm = z.object(homework);
export const undoPracticeForm = z.object(homework);
export const correctPracticeForm = z.object({
  ...homework,
  times: z
    .string({ error: countSentence })
    .trim()
    .regex(/^\d{1,9}$/, countSentence)
    .transform(Number)
    .refine((times) => times <= MOST_A_DAY, MOST_A_DAY_WORDS),
});

export const playerIdForm = z.object({ playerId: idForm });
export const todayForm = z.object({ playerId: idForm, planId: idForm.optional() });
export const playerSideForm = z.object({ playerId: idForm, side: z.enum(SIDES) });
export const listCountsForm = z.object({ playerIds: z.array(idForm).max(200) });
export const weekForm = z.object({ playerId: idForm, day: dayForm.optional() });
