import { z } from "zod";
import { dayForm, idForm } from "../schema";
import { SEASONS } from "./rules";

const emptyAsNull = <T extends z.ZodType>(form: T) => z.preprocess((value) => (value === "" || value === undefined ? null : value), form.nullable());

/** More players than these are not set at once. */
const MOST_AT_ONCE = 200;

const seasonFields = {
  season: z.enum(SEASONS, "Choose the part of the year."),
  from: dayForm,
  until: emptyAsNull(dayForm),
  firstGameOn: emptyAsNull(dayForm),
};

export const setSeasonForm = z.object({ playerId: idForm, ...seasonFields });
export const setSeasonsForm = z.object({
  playerIds: z.preprocess(
    (value) => (value === undefined || value === "" ? [] : Array.isArray(value) ? value : [value]),
    z.array(idForm).min(1, "Tick at least one player.").max(MOST_AT_ONCE, `Tick ${MOST_AT_ONCE} players at most.`).transform((ids) => [...new Set(ids)]),
  ),
  ...seasonFields,
});
export const listSeasonsForm = z.object({ after: idForm.optional() });
