import { z } from "zod";
import type { PlainSentence } from "@/lib/core/words/say";
import { dayForm, idForm } from "../schema";
import { MOST_SWINGS_A_DAY, SWING_SOURCES } from "./rules";

const sentence = `Swings: a whole number from 0 to ${MOST_SWINGS_A_DAY}.` as const satisfies PlainSentence;
const swings = z.coerce.number({ error: sentence }).int(sentence).min(0, sentence).max(MOST_SWINGS_A_DAY, sentence);
const emptyAsNull = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === undefined ? null : value), form.nullable());
const ticked = z.preprocess((value) => value === "on" || value === true || value === "true", z.boolean());
export const weekdaysForm = z.preprocess(
  (value) => (value === undefined || value === "" ? [] : Array.isArray(value) ? value : [value]),
  z.array(z.coerce.number().int().min(1, "There is no such day of the week.").max(7, "There is no such day of the week.")).max(7).transform((days) => [...new Set(days)].sort()),
);

export const swingsElsewhereForm = z.object({
  playerId: idForm,
  teamDays: weekdaysForm, teamSwings: swings.default(0),
  lessonsDays: weekdaysForm, lessonsSwings: swings.default(0),
  gamesDays: weekdaysForm, gamesSwings: swings.default(0),
});
export const logSwingsForm = z.object({
  playerId: idForm,
  day: dayForm,
  source: z.enum(SWING_SOURCES, "Say where: team, lessons or games."),
  swings: emptyAsNull(swings),
  isEasy: ticked,
});
export const takeBackSwingsForm = z.object({ playerId: idForm, logId: idForm });
