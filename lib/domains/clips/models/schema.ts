import { z } from "zod";
import { LEVELS } from "@/lib/core/age";
import { SPORTS } from "@/lib/domains/roster/rules";
import { dayForm, idForm } from "@/lib/domains/roster/schema";
import { PITCH_HEIGHTS, PITCH_SIDES, SIDES, SWING_KINDS, TASKS, VIEWS } from "../schema";
import { BODIES, RIGHT_BASES } from "./rules";

const words = (most: number, ask: string) => z.string({ error: ask }).trim().min(1, ask).max(most, `Keep it below ${most} letters.`);
const height = z.preprocess(
  (value) => (value === "" || value === undefined ? null : value),
  z.coerce.number({ error: "Write the height in metres, such as 1.52." }).min(0.8, "Write the height in metres, such as 1.52.").max(2.4, "Write the height in metres, such as 1.52.").nullable(),
);

const modelFields = {
  label: words(60, "Make up a name for the model, such as “Left-hander, long levers”."),
  sport: z.enum(SPORTS, "Choose baseball or softball."),
  level: z.enum(LEVELS, "Choose the level."),
  body: z.enum(BODIES, "Say whether the hitter is grown."),
  heightM: height,
  task: z.enum(TASKS, "Say what was hit."),
  pitchHeight: z.enum(PITCH_HEIGHTS, "Say how high the ball was."),
  pitchSide: z.enum(PITCH_SIDES, "Say on which side the ball was."),
  rightHolder: words(120, "Say whose right it is, such as the hitter, the family or who filmed it."),
  rightBasis: z.enum(RIGHT_BASES, "Choose what the right rests on."),
  rightUntil: dayForm,
  rightNote: z.string().trim().max(500, "Keep it below 500 letters.").default(""),
};
export type ModelFields = z.infer<z.ZodObject<typeof modelFields>>;

export const keepModelForm = z.object({ swingId: idForm, ...modelFields });
export const editModelForm = z.object({ modelId: idForm, ...modelFields });
export const modelIdForm = z.object({ modelId: idForm });

/** For whom a model is looked for, and what the swing beside it was; a fact that is left out does not count. */
export const modelsForForm = z.object({
  playerId: idForm,
  side: z.enum(SIDES),
  view: z.enum(VIEWS),
  swingKind: z.enum(SWING_KINDS).nullable().default(null),
  task: z.enum(TASKS).nullable().default(null),
  pitchHeight: z.enum(PITCH_HEIGHTS).nullable().default(null),
  pitchSide: z.enum(PITCH_SIDES).nullable().default(null),
});
export const nothingForm = z.object({});
