import { z } from "zod";
import { SIDES } from "@/lib/domains/clips/schema";
import { SCENE_PROPS } from "@/lib/prescribe/scene";
import { dayForm, idForm } from "@/lib/domains/roster/schema";

const side = z.enum(SIDES, { error: "Say which side: right or left." });
const libraryId = z.string({ error: "Choose a drill." }).regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "The library has no such drill.").max(80, "The library has no such drill.");
const emptyAsMissing = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === null ? undefined : value), form.optional());
const wholeNumber = (least: number, most: number, what: string) => {
  const sentence = `${what}: a whole number from ${least} to ${most}.`;
  return z.coerce.number({ error: sentence }).int(sentence).min(least, sentence).max(most, sentence);
};
/** What is typed into one part of a note; the rules look at the words themselves. */
const text = z.string().trim().max(1500, "This is longer than a note may be.").default("");

/** What the page showed when its form was written; without it nothing is held against it. */
const was = <Parts extends z.ZodType>(parts: Parts) =>
  z
    .string()
    .max(20_000)
    .transform((json, context): z.infer<Parts> => {
      const parsed = parts.safeParse(parseJson(json));
      if (parsed.success) return parsed.data;
      context.addIssue({ code: "custom", message: "Look at the page again; nothing was changed." });
      return z.NEVER;
    })
    .optional();

function parseJson(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return null;
  }
}

export const playerIdForm = z.object({ playerId: idForm });
export const playerSideForm = z.object({ playerId: idForm, side });
export const planDraftForm = z.object({ playerId: idForm, side, focusId: emptyAsMissing(idForm) });
export const listSentNotesForm = z.object({ playerId: idForm, after: emptyAsMissing(idForm) });
export const listHomeworkForm = z.object({ playerIds: z.array(idForm).max(200) });
export const noteIdForm = z.object({ noteId: idForm });

export const startPlanForm = z.object({ playerId: idForm, side, focusId: emptyAsMissing(idForm) });
export const planIdForm = z.object({ planId: idForm });
export const setDaysForm = z.object({
  planId: idForm,
  minutesPerDay: wholeNumber(5, 90, "Minutes a day"),
  daysPerWeek: wholeNumber(1, 5, "Days a week"),
  nextCheckOn: dayForm,
});
export const planDrillForm = z.object({ planId: idForm, drillId: libraryId });
export const moveDrillForm = planDrillForm.extend({ direction: z.enum(["up", "down"]) });
export const setDoseForm = planDrillForm.extend({ timesPerDay: wholeNumber(1, 200, "Times a day"), minutesPerDay: wholeNumber(1, 60, "Minutes a day") });
export const chooseCueForm = z.object({ planId: idForm, cue: text, ownCue: text, was: z.string().max(1500).optional() });
const familyParts = z.object({ keptWell: text, oneThing: text, why: text, forFamily: text });
export const writeNoteForm = familyParts.extend({ planId: idForm, was: was(familyParts) });
export const sendNoteForm = z.object({ planId: idForm, seen: z.string().max(20_000).optional() });
export const chooseStillForm = z.object({
  planId: idForm,
  /** "clip frame", or empty for a note without a still. */
  still: z
    .string()
    .default("")
    .transform((value, context) => {
      if (value === "") return null;
      const [clipId, frame] = value.split(" ");
      const parsed = z.object({ clipId: idForm, frameIndex: z.coerce.number().int().nonnegative() }).safeParse({ clipId, frameIndex: frame });
      if (parsed.success) return parsed.data;
      context.addIssue({ code: "custom", message: "There is no such still." });
      return z.NEVER;
    }),
});
const privateParts = z.object({ words: z.string().trim().max(4000, "Keep it below 4000 letters.").default("") });
export const writePrivateNoteForm = privateParts.extend({ planId: idForm, was: was(privateParts) });

/** A drill's words as they stand in a plan: kept as they were sent, whatever the library says later. */
export const drillWordsForm = z.object({
  v: z.literal(1),
  name: z.string(),
  setup: z.string(),
  equipment: z.array(z.string()),
  space: z.string(),
  steps: z.array(z.string()),
  cue: z.string().nullable(),
  safety: z.array(z.string()),
  cautions: z.array(z.string()),
  worked: z.string(),
  daysPerWeekMost: z.number().nullable(),
  /** What is drawn of the set-up; null for a plan from before it was. */
  scene: z.object({ widthM: z.number(), lengthM: z.number(), props: z.array(z.enum(SCENE_PROPS)), hasCircle: z.boolean(), hasAdult: z.boolean() }).nullable().default(null),
});
export type DrillWords = z.infer<typeof drillWordsForm>;

const NO_WORDS: DrillWords = { v: 1, name: "", setup: "", equipment: [], space: "", steps: [], cue: null, safety: [], cautions: [], worked: "", daysPerWeekMost: null, scene: null };

/** The words of a drill as they are kept in its plan. */
export function wordsOf(kept: unknown): DrillWords {
  return drillWordsForm.safeParse(kept).data ?? NO_WORDS;
}
