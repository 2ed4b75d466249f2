import type { fieldState } from "@/lib/ui/field-state";
import { Select } from "@/lib/ui/select";
import { DateInput } from "@/lib/ui/text-input";
import { SEASON_WORDS, SEASONS } from "../seasons/rules";

type Field = ReturnType<typeof fieldState>;

/** The part of the year and its days, for one player or for many. */
export function SeasonFields(fields: { season: Field; from: Field; until: Field; firstGameOn: Field }) {
  return (
    <>
      <Select name="season" label="Part of the year" options={SEASONS.map((season) => ({ value: season, label: SEASON_WORDS[season] }))} empty {...fields.season} />
      <DateInput name="from" label="From" {...fields.from} />
      <DateInput name="until" label="Until" mayBeEmpty hint="The first day on which it no longer holds." {...fields.until} />
      <DateInput name="firstGameOn" label="First game" mayBeEmpty hint="In the 14 days before it no new change of the movement begins." {...fields.firstGameOn} />
    </>
  );
}
