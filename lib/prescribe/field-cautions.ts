import type { HeatTable, LightningTable, ThrowingTable } from "./field-limits";

/** The library's tables, with where they come from. */
export interface FieldTables {
  readonly throwing: ThrowingTable & { readonly source: string; readonly checkBefore: string; readonly also: readonly string[]; readonly outside: string };
  readonly heat: { readonly rule: string; readonly scales: readonly (HeatTable["scales"][number] & { readonly source: string })[] };
  readonly lightning: { readonly source: string; readonly rows: readonly (LightningTable["rows"][number] & { readonly words: string })[] };
  readonly overall: { readonly source: string; readonly rows: readonly { readonly words: string }[] };
}

/** A caution for the place: one sentence in the open, its rows and source on demand. */
export interface FieldCaution {
  readonly id: "lightning" | "heat" | "throwing" | "hours";
  readonly words: string;
  readonly rows: readonly string[];
  readonly source: string;
}

/** Where no ball flies nobody needs to be outdoors. */
const INDOORS = ["dry", "strength", "mobility"];
/** Somebody throws for these. */
const THROWN = ["throw", "live"];

/** A source as people read it: without the pointer into our own papers. */
const plainSource = (source: string) => source.replace(/\s*\(REFERENCE\.md[^)]*\)/g, "");
const range = (from: number, to: number | null) => (to === null ? `${from} or more` : `${from} to ${to}`);
const daysOff = (days: number) => (days === 0 ? "no day off" : days === 1 ? "one day off" : `${days} days off`);

function heatRow({ above, from, below, to, do: what }: FieldTables["heat"]["scales"][number]["rows"][number], unit: string): string {
  const low = above !== undefined ? `over ${above}` : from !== undefined ? `${from}` : null;
  const high = to !== undefined ? `to ${to}` : below !== undefined ? `under ${below}` : null;
  const span = low === null ? (high ?? "") : high === null ? low : `${low} ${high.startsWith("to") ? high : `to ${high}`}`;
  return `${span} °${unit}: ${what}`;
}

function throwingCaution(years: number, table: FieldTables["throwing"]): FieldCaution {
  const isOfAge = ({ ages: [from, to] }: { ages: readonly [number, number] }) => years >= from && years <= to;
  const most = table.dailyMax.find(isOfAge);
  const rest = table.restDays.find(isOfAge);
  const rows = most && rest ? [`At most ${most.pitches} pitches in a day at this age`, ...rest.rows.map(([from, to, days]) => `${range(from, to)} pitches: ${daysOff(days)}`)] : [table.outside];
  return {
    id: "throwing",
    words: "Whoever pitches counts pitches, and rests before the next time.",
    rows: [...rows, ...table.also, table.checkBefore].map(asSentence),
    source: plainSource(table.source),
  };
}

const asSentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;

/**
 * What is said of the place for a set of drills: thunder and heat wherever a ball flies, throwing where somebody throws.
 * Of heat a minor gets the children's scale, which is nowhere the milder one, an adult the adults'. Source: the tables' own.
 * @param setups how the drills are done
 * @param years age in completed years today
 */
export function fieldCautions(setups: readonly string[], years: number, tables: FieldTables): FieldCaution[] {
  if (setups.every((setup) => INDOORS.includes(setup))) return [];
  const scale = tables.heat.scales.find(({ id }) => id === (years < 18 ? "children" : "adults"));
  const heat: FieldCaution[] = scale
    ? [
        {
          id: "heat",
          words: "In the heat: shade, water, longer rests, and no swings when it is too hot.",
          rows: [...scale.rows.map((row) => heatRow(row, scale.unit)), "This is WBGT, not the air’s temperature. Without a reading the local rule holds"].map(asSentence),
          source: plainSource(scale.source),
        },
      ]
    : [];
  return [
    { id: "lightning", words: "Thunder or lightning: stop at once and go into a house or a car.", rows: tables.lightning.rows.map(({ words }) => asSentence(words)), source: plainSource(tables.lightning.source) },
    ...heat,
    ...(setups.some((setup) => THROWN.includes(setup)) ? [throwingCaution(years, tables.throwing)] : []),
    { id: "hours", words: "Sport is not everything: days without it belong to the week.", rows: tables.overall.rows.map(({ words }) => asSentence(words)), source: plainSource(tables.overall.source) },
  ];
}
