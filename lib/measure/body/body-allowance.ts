/** How far a body may differ from the tables, which describe the average adult. */
export interface BodyAllowance {
  /** Lengths and mass shares may be off by this share before anybody is warned; about two SDs. */
  readonly limit: number;
  readonly sd: number;
}

const CHILD_LIMIT = 0.1;
const ADULT_LIMIT = 0.05;
const GROWN_AT_YEARS = 18;

/**
 * Ten percent for a body that still grows (head and trunk are larger shares, limbs shorter ones), five for a grown one.
 * Unknown age is taken as growing. Source: ten percent from the tables' readers; five percent and the age are judgement.
 * @param ageYears completed years @throws RangeError for an age below 0
 */
export function bodyAllowance(ageYears: number | null): BodyAllowance {
  if (ageYears !== null && !(ageYears >= 0)) throw new RangeError(`an age must be 0 or more, not ${ageYears}`);
  const limit = ageYears !== null && ageYears >= GROWN_AT_YEARS ? ADULT_LIMIT : CHILD_LIMIT;
  return { limit, sd: limit / 2 };
}
