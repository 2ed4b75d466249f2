/** The five levels of players, youngest first. A level changes on the birthday. */
export const LEVELS = ["8-10", "11-12", "13-14", "15-18", "adult"] as const;
export type Level = (typeof LEVELS)[number];

/** Players below this age in years are read with the youth bands and youth limits. */
export const YOUTH_UNDER_YEARS = 13;
/** Below this age in years a person is a minor: adult rules are hard limits. */
export const ADULT_FROM_YEARS = 18;

const DAY_FORM = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Year, month and day of a calendar day "YYYY-MM-DD". @throws RangeError when there is no such day */
function partsOf(day: string): readonly [number, number, number] {
  const match = DAY_FORM.exec(day);
  const [year, month, date] = [Number(match?.[1]), Number(match?.[2]), Number(match?.[3])];
  const asDate = new Date(Date.UTC(year, month - 1, date));
  const isReal = match !== null && asDate.getUTCMonth() === month - 1 && asDate.getUTCDate() === date;
  if (!isReal) throw new RangeError(`no such day: ${day}`);
  return [year, month, date];
}

/**
 * Completed years on a day, both calendar days ("YYYY-MM-DD") in the time zone of the player's location. Whoever was
 * born on 29 February completes a year on 1 March where the year has no 29th: limits by age then hold a day longer.
 * @throws RangeError when a day does not exist or lies before the birth
 */
export function ageYears(birthDate: string, day: string): number {
  const [birthYear, birthMonth, birthDay] = partsOf(birthDate);
  const [year, month, date] = partsOf(day);
  const isBeforeBirthday = month < birthMonth || (month === birthMonth && date < birthDay);
  const years = year - birthYear - (isBeforeBirthday ? 1 : 0);
  if (years < 0) throw new RangeError(`the birth date ${birthDate} lies after ${day}`);
  return years;
}

/**
 * Level of an age in completed years. Under 8 belongs to "8-10" (with limits of its own); 18 is "15-18" while at
 * school or when nobody said, and "adult" once school is left; everyone from 19 is "adult".
 * @throws RangeError for an age that is no whole number from 0
 */
export function levelOfAge(years: number, hasLeftSchool: boolean | null = null): Level {
  if (!Number.isInteger(years) || years < 0) throw new RangeError(`no such age: ${years}`);
  if (years <= 10) return "8-10";
  if (years <= 12) return "11-12";
  if (years <= 14) return "13-14";
  if (years <= 17 || (years === 18 && hasLeftSchool !== true)) return "15-18";
  return "adult";
}

/** Level on a day from the birth date; see {@link ageYears} and {@link levelOfAge}, whose errors it passes on. */
export function levelOf(birthDate: string, day: string, hasLeftSchool: boolean | null = null): Level {
  return levelOfAge(ageYears(birthDate, day), hasLeftSchool);
}

/** True when the youth values (valueYouth, bandYouth) replace the ordinary ones. */
export function isYouth(years: number): boolean {
  return years < YOUTH_UNDER_YEARS;
}

/** True below 18 years. */
export function isMinor(years: number): boolean {
  return years < ADULT_FROM_YEARS;
}
