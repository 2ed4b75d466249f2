import { z } from "zod";
import { PAIN_PARTS } from "../rules";
import { dayForm, idForm } from "../schema";
import { INCIDENT_KINDS } from "./rules";

export const noteIncidentForm = z.object({
  playerId: idForm,
  kind: z.enum(INCIDENT_KINDS, "Say what it was: a hit, pain, or a blow to the head."),
  part: z.enum(PAIN_PARTS, "Say which part of the body."),
  happenedOn: dayForm,
  words: z.string({ error: "Write what happened." }).trim().min(1, "Write what happened.").max(500, "Keep it below 500 letters."),
  firstAid: z.string().trim().max(500, "Keep it below 500 letters.").default(""),
});
export const listIncidentsForm = z.object({ after: idForm.optional() });
