import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";

/** Three states; what is not visible says nothing. */
export const SIGHTS = ["seen", "not-seen", "not-visible"] as const;
/** Who says so: the coach's eye, the reading, or both. */
export const SOURCES = ["eye", "reading", "both"] as const;
export const SIDES = ["right", "left"] as const;

const side = z.enum(SIDES, { error: "Say which side: right or left." });
/** A name of the library, such as "barrel-drag". Whether there is such a fault is looked up. */
const libraryId = z.string({ error: "Say what it is about." }).regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "The library has no such entry.").max(80, "The library has no such entry.");
const emptyAsMissing = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === null ? undefined : value), form.optional());
const ofSide = { playerId: idForm, side };

export const whatFirstForm = z.object({ ...ofSide, swingId: emptyAsMissing(idForm), kind: emptyAsMissing(libraryId), all: emptyAsMissing(libraryId) });
export const playerSideForm = z.object(ofSide);
export const timelineForm = z.object({ ...ofSide, after: emptyAsMissing(idForm) });
export const cageDayForm = z.object({});

const callFields = z.object({
  ...ofSide,
  swingId: idForm,
  faultId: libraryId,
  /** "as-read" takes what the readings of the swing propose. */
  state: z.enum([...SIGHTS, "as-read", "take-back"], { error: "Choose seen, not seen or not visible." }),
  source: emptyAsMissing(z.enum(SOURCES)),
  clipId: emptyAsMissing(idForm),
  frameIndex: emptyAsMissing(z.coerce.number().int().nonnegative()),
});

/** A call. Where one form holds many faults, the button pressed says which: "barrel-drag seen", with clip and frame of its still after it. */
export const callFaultForm = z.preprocess((given: z.input<typeof callFields> | { press: string }) => {
  if (!("press" in given)) return given;
  const { press, ...rest } = given;
  const [faultId, state, clipId, frameIndex] = press.split(" ");
  return { ...rest, faultId, state, clipId, frameIndex };
}, callFields);

export const answerCauseForm = z.object({
  ...ofSide,
  nodeId: libraryId,
  answer: z.enum(["yes", "no", "not-asked"], { error: "Choose yes, no or not asked." }),
});

/** One form holds a question with its answers; "skip" says nothing and keeps nothing. */
export const answerQuestionForm = z.object({ ...ofSide, questionId: libraryId, answer: libraryId });
export const takeBackAnswerForm = z.object({ ...ofSide, questionId: libraryId });
export const callSymptomForm = z.object({ ...ofSide, symptomId: libraryId, state: z.enum(["seen", "not-seen", "take-back"], { error: "Choose seen or not seen." }) });
export const askForWorkForm = z.object({ ...ofSide, kind: emptyAsMissing(libraryId) });
export const noteCueForm = z.object({
  ...ofSide,
  faultId: libraryId,
  cue: z.string().trim().max(120, "A cue is short: 120 letters at most.").optional().default(""),
  ownCue: z.string().trim().max(120, "A cue is short: 120 letters at most.").optional().default(""),
});

/** A fact of a ball that may stay unknown. */
const fact = emptyAsMissing(z.string().regex(/^[a-z]+(-[a-z]+)*$/, "The list has no such entry.").max(40, "The list has no such entry."));
/** How it was swung at or not, in one press: "hard", "weak", "miss", or what was taken. */
export const noteBallForm = z.object({
  ...ofSide,
  task: z.string().max(40), swingKind: z.string().max(40),
  pitchHeight: fact, pitchSide: fact, pitchSpeed: fact,
  press: z.enum(["hard", "weak", "miss", "took-strike", "took-ball"], { error: "Say how the ball was met." }),
  direction: fact, height: fact, timing: fact, spot: fact, curve: fact,
});
export const takeBackBallForm = z.object({ ...ofSide, ballId: idForm });
export const tallyForm = z.object({ ...ofSide });

const LEAST_WORDS = 3;
export const overruleForm = z.object({
  ...ofSide,
  faultId: libraryId,
  reason: z
    .string({ error: "Write why, in three words or more." })
    .trim()
    .max(500, "Keep the reason under 500 letters.")
    .refine((text) => text.split(/\s+/).filter(Boolean).length >= LEAST_WORDS, "Write why, in three words or more."),
});
export const undoOverruleForm = z.object({ ...ofSide, overruleId: idForm });

export const chooseFocusForm = z.object({ ...ofSide, faultId: libraryId, parkId: emptyAsMissing(idForm) });
export const changeFocusForm = z.object({ ...ofSide, focusId: idForm });
export const resumeFocusForm = z.object({ ...ofSide, focusId: idForm, parkId: emptyAsMissing(idForm) });

export type CallFaultInput = z.infer<typeof callFaultForm>;
export type AnswerCauseInput = z.infer<typeof answerCauseForm>;
export type OverruleInput = z.infer<typeof overruleForm>;
export type ChooseFocusInput = z.infer<typeof chooseFocusForm>;
export type AnswerQuestionInput = z.infer<typeof answerQuestionForm>;
export type CallSymptomInput = z.infer<typeof callSymptomForm>;
export type NoteBallInput = z.infer<typeof noteBallForm>;
export type NoteCueInput = z.infer<typeof noteCueForm>;
