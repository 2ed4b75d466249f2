import { z } from "zod";
import { isId, type Id } from "@/lib/core/ids";
import type { PlainSentence } from "@/lib/core/words/say";
import { ADULTS_AT_HOME, BATS, BODY_PARTS, CONSENT_USES, PAIN_PARTS, RELATIONS, SPORTS } from "./rules";

/** An identifier from a form or a URL. */
export const idForm = z.custom<Id>(isId, "There is no such record.");

function isDay(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && Number.isFinite(time) && new Date(time).toISOString().slice(0, 10) === text;
}

/** A day that exists, as YYYY-MM-DD. */
export const dayForm = z
  .string({ error: "Write the day as year, month, day, such as 2026-11-25." })
  .trim()
  .refine(isDay, "There is no such day. Write it as year, month, day, such as 2026-11-25.");
const optionalDay = z.preprocess((value) => (value === "" || value === null ? undefined : value), dayForm.optional());

const nameForm = (what: string) =>
  z.string({ error: `Write the ${what}.` }).trim().min(1, `Write the ${what}.`).max(80, `Keep the ${what} below 80 letters.`);
const mailForm = z
  .string({ error: "Write a mail address." })
  .trim()
  .toLowerCase()
  .max(254, "This mail address is too long.")
  .pipe(z.email("This is no mail address. It needs a name, an @ and a place, such as kim@example.org."));
const ticked = z.preprocess((value) => value === "on" || value === true || value === "true", z.boolean());
const metres = (most: number, what: string) =>
  z.coerce.number({ error: `Write ${what} in metres.` }).min(0, `Write ${what} in metres, from 0.`).max(most, `Write ${what} in metres, ${most} at most.`);
const wholeNumber = (least: number, most: number, what: string, sentence = `${what}: a whole number from ${least} to ${most}.`) =>
  z.coerce.number({ error: sentence }).int(sentence).min(least, sentence).max(most, sentence);
const painLevel: PlainSentence = "How much: a whole number from 0 to 10.";
const emptyAsNull = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === undefined ? null : value), form.nullable());

export const playerIdForm = z.object({ playerId: idForm });

const playerFields = {
  givenName: nameForm("given name"),
  familyName: nameForm("family name"),
  birthDate: dayForm,
  sport: z.enum(SPORTS, "Choose baseball or softball."),
  bats: z.enum(BATS, "Choose how the player bats."),
  isSlapper: ticked,
  heightM: emptyAsNull(z.coerce.number({ error: "Write the height in metres, such as 1.52." }).min(0.8, "Write the height in metres, such as 1.52.").max(2.4, "Write the height in metres, such as 1.52.")),
};
export const addPlayerForm = z.object({ ...playerFields, locationId: idForm });
export const editPlayerForm = z.object({ ...playerFields, playerId: idForm, hasLeftSchool: ticked });

export const addGuardianForm = z.object({
  playerId: idForm,
  displayName: nameForm("name"),
  email: mailForm,
  relation: z.enum(RELATIONS, "Choose what this person is to the player."),
});
export const endGuardianshipForm = z.object({ playerId: idForm, guardianshipId: idForm });
export const invitePlayerForm = z.object({ playerId: idForm, email: mailForm });

export const assignCoachForm = z.object({ playerId: idForm, userId: z.custom<Id>(isId, "Choose a coach."), from: optionalDay, until: optionalDay });
export const endAssignmentForm = z.object({ playerId: idForm, assignmentId: idForm, until: optionalDay });
export const reassignForm = z.object({ fromUserId: idForm, toUserId: z.custom<Id>(isId, "Choose the coach who takes over.") });

export const recordConsentForm = z.object({
  playerId: idForm,
  use: z.enum(CONSENT_USES, "Choose what the consent is for."),
  givenOn: optionalDay,
  validUntil: optionalDay,
  givenById: emptyAsNull(idForm).optional(),
});
export const withdrawConsentForm = z.object({ playerId: idForm, use: z.enum(CONSENT_USES, "Choose which consent ends.") });

export const homeSetupForm = z.object({
  playerId: idForm,
  gear: z.array(z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)).max(60).default([]),
  widthM: metres(60, "the width"),
  lengthM: metres(100, "the length"),
  hasCage: ticked,
  partnerCount: wholeNumber(0, 5, "Partners"),
  adult: z.enum(ADULTS_AT_HOME, "Choose which grown-up is there."),
  minutesPerDay: wholeNumber(5, 90, "Minutes a day"),
  daysPerWeek: wholeNumber(1, 5, "Days a week"),
});

export const recordComplaintForm = z.object({ playerId: idForm, part: z.enum(BODY_PARTS, "Choose the part of the body.") });
export const endComplaintForm = z.object({ playerId: idForm, complaintId: idForm });

export const reportPainForm = z.object({
  playerId: idForm,
  part: z.enum(PAIN_PARTS, "Say where it hurts."),
  level: wholeNumber(0, 10, "How much", painLevel),
  words: z.string().trim().max(500, "Keep it below 500 letters.").default(""),
});
export const clearPauseForm = z.object({ playerId: idForm, pauseId: idForm });
/** After a blow to the head the family also says on which day a licensed clinician said yes. */
export const clearPauseAsFamilyForm = z.object({ playerId: idForm, pauseId: idForm, clinicianSaidOn: optionalDay });

export const listPlayersForm = z.object({
  search: z.string().trim().max(80).default(""),
  after: idForm.optional(),
  hasLeft: z.boolean().default(false),
});
export const listNoticesForm = z.object({ after: idForm.optional() });
export const readNoticeForm = z.object({ noticeId: idForm });
