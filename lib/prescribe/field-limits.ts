// Throwing, hours, heat and lightning: the tables stand in the library (editable, dated), the arithmetic here.

interface AgeRows {
  readonly ages: readonly [number, number];
}
/** The library's throwing table. */
export interface ThrowingTable {
  readonly dailyMax: readonly (AgeRows & { readonly pitches: number })[];
  readonly restDays: readonly (AgeRows & { readonly rows: readonly (readonly [from: number, to: number | null, days: number])[] })[];
}

export type PitchingRest =
  | { readonly kind: "within"; readonly most: number; readonly restDays: number }
  | { readonly kind: "over"; readonly most: number; readonly restDays: number }
  | { readonly kind: "no-row" };

const isOfAge = (years: number) => ({ ages: [from, to] }: AgeRows) => years >= from && years <= to;

/**
 * Days without pitching after so many pitches in a day, and whether the day's limit was passed; no row for the age is
 * said, never filled in. Source: the table's own (pitch-count guideline, copy of about 2015).
 * @throws RangeError for pitches that are no whole number from 0
 */
export function pitchingRest(years: number, pitches: number, table: ThrowingTable): PitchingRest {
  if (!Number.isInteger(pitches) || pitches < 0) throw new RangeError(`no such number of pitches: ${pitches}`);
  const daily = table.dailyMax.find(isOfAge(years));
  const rest = table.restDays.find(isOfAge(years));
  if (!daily || !rest) return { kind: "no-row" };
  const row = rest.rows.find(([from, to]) => pitches >= from && pitches <= (to ?? Infinity));
  return { kind: pitches > daily.pitches ? "over" : "within", most: daily.pitches, restDays: row?.[2] ?? 0 };
}

/** Whether hours of sport in a week stay within the age in years. Source: athletic trainers' position statement, copy. */
export function weeklyHours(years: number, hours: number): "within" | "over" {
  return hours > years ? "over" : "within";
}

/** Wet bulb globe temperature in °C from wet bulb, globe and air in °C. Source: American Academy of Pediatrics. */
export function wbgtCelsius(wetBulbC: number, globeC: number, airC: number): number {
  return 0.7 * wetBulbC + 0.2 * globeC + 0.1 * airC;
}

/** The library's heat scales: the rows stand from the coolest up. */
export interface HeatTable {
  readonly scales: readonly { readonly id: string; readonly unit: "C" | "F"; readonly rows: readonly { readonly above?: number; readonly from?: number; readonly below?: number; readonly to?: number; readonly do: string }[] }[];
}

/** From playing as usual to not playing at all. */
export const HEAT_STEPS = ["all", "rest", "limit", "cancel"] as const;
export type HeatStep = (typeof HEAT_STEPS)[number];

/**
 * What to do at a WBGT: minors by the stricter of the scales, adults by their own.
 * @param celsius WBGT in °C; air temperature alone is not WBGT
 */
export function heatAdvice(celsius: number, years: number, table: HeatTable): { readonly step: HeatStep; readonly words: string } {
  // Half a millionth of a degree: a limit given in °F and turned into °C must still be that limit.
  const isIn = (value: number, row: HeatTable["scales"][number]["rows"][number]) => value < (row.below ?? Infinity) - 5e-7 && value <= (row.to ?? Infinity) + 5e-7;
  const answers = table.scales
    .filter(({ id }) => years < 18 || id === "adults")
    .map(({ unit, rows }) => {
      const value = unit === "F" ? (celsius * 9) / 5 + 32 : celsius;
      const found = rows.findIndex((row) => isIn(value, row));
      const index = found === -1 ? rows.length - 1 : found;
      return { index, words: rows[index]?.do ?? "" };
    })
    .sort((a, b) => b.index - a.index);
  const [strictest] = answers;
  if (!strictest) throw new RangeError("there is no heat scale");
  return { step: HEAT_STEPS[strictest.index] ?? "cancel", words: strictest.words };
}

/** The library's lightning rule. */
export interface LightningTable {
  readonly rows: readonly { readonly id: string; readonly minutes?: number }[];
}

/**
 * Whether play may go on: so many minutes after the last flash or thunder, whatever came before.
 * @param signs instants of flashes and thunder, in any order
 */
export function lightningWait(signs: readonly Date[], now: Date, table: LightningTable): { readonly isSafe: boolean; readonly minutesLeft: number } {
  const wait = table.rows.find(({ id }) => id === "wait")?.minutes;
  if (wait === undefined) throw new RangeError("the rule names no minutes to wait");
  const last = Math.max(-Infinity, ...signs.map((sign) => sign.getTime()));
  const minutesLeft = Math.max(0, Math.ceil(wait - (now.getTime() - last) / 60_000));
  return { isSafe: minutesLeft === 0, minutesLeft };
}
