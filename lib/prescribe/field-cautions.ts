import { english, type Say } from "@/lib/core/words/say";
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
  /** `en` where the rows have no translation and stay English. */
  readonly lang?: "en";
}

/** Where no ball flies nobody needs to be outdoors. */
const INDOORS = ["dry", "strength", "mobility"];
/** Somebody throws for these. */
const THROWN = ["throw", "live"];

/** A source as people read it: without the pointer into our own papers. */
const plainSource = (source: string) => source.replace(/\s*\(REFERENCE\.md[^)]*\)/g, "");
function heatRow({ above, from, below, to, do: what }: FieldTables["heat"]["scales"][number]["rows"][number], unit: string, say: Say): string {
  const low = above !== undefined ? say("over {degrees}", { degrees: above }) : from !== undefined ? `${from}` : null;
  const high = to !== undefined ? say("to {degrees}", { degrees: to }) : below !== undefined ? say("under {degrees}", { degrees: below }) : null;
  const span = low === null ? (high ?? "") : high === null ? low : `${low} ${to !== undefined ? high : say("to under {degrees}", { degrees: below ?? 0 })}`;
  return `${span} °${unit}: ${say.told(what)}`;
}

function restRow([from, to, days]: readonly [number, number | null, number], say: Say): string {
  if (to === null) return say("{from} or more pitches: {days, plural, =0 {no day off} one {one day off} other {# days off}}", { from, days });
  return say("{from} to {to} pitches: {days, plural, =0 {no day off} one {one day off} other {# days off}}", { from, to, days });
}

function throwingCaution(years: number, table: FieldTables["throwing"], page: Say): FieldCaution {
  const texts = [table.outside, ...table.also, table.checkBefore];
  const say = page.around(...texts);
  const isOfAge = ({ ages: [from, to] }: { ages: readonly [number, number] }) => years >= from && years <= to;
  const most = table.dailyMax.find(isOfAge);
  const rest = table.restDays.find(isOfAge);
  const rows = most && rest ? [say("At most {count} pitches in a day at this age", { count: most.pitches }), ...rest.rows.map((row) => restRow(row, say))] : [say.told(table.outside)];
  return {
    id: "throwing",
    words: page("Whoever pitches counts pitches, and rests before the next time."),
    rows: [...rows, ...[...table.also, table.checkBefore].map(say.told)].map(asSentence),
    source: plainSource(table.source),
    ...marked(page, texts),
  };
}

const marked = (say: Say, texts: readonly string[]) => (say.knows(...texts) ? {} : { lang: "en" as const });
/** Every text of the tables that a family may read. */
export function textsOfTables({ throwing, heat, lightning, overall }: FieldTables): readonly string[] {
  return [throwing.outside, ...throwing.also, throwing.checkBefore, ...heat.scales.flatMap(({ rows }) => rows.map((row) => row.do)), ...lightning.rows.map(({ words }) => words), ...overall.rows.map(({ words }) => words)];
}

const asSentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;

function heatRows({ rows, unit }: FieldTables["heat"]["scales"][number], say: Say): string[] {
  return [...rows.map((row) => heatRow(row, unit, say)), say("This is WBGT, not the air’s temperature. Without a reading the local rule holds")];
}

function rowsOf(table: { readonly source: string; readonly rows: readonly { readonly words: string }[] }, say: Say): Omit<FieldCaution, "id" | "words"> {
  const texts = table.rows.map(({ words }) => words);
  return { rows: texts.map((text) => asSentence(say.told(text))), source: plainSource(table.source), ...marked(say, texts) };
}

/**
 * What is said of the place for a set of drills: thunder and heat wherever a ball flies, throwing where somebody throws.
 * Of heat a minor gets the children's scale, which is nowhere the milder one, an adult the adults'. Source: the tables' own.
 * @param setups how the drills are done
 * @param years age in completed years today
 * @param say the voice in which it is read
 */
export function fieldCautions(setups: readonly string[], years: number, tables: FieldTables, say: Say = english): FieldCaution[] {
  if (setups.every((setup) => INDOORS.includes(setup))) return [];
  const scale = tables.heat.scales.find(({ id }) => id === (years < 18 ? "children" : "adults"));
  const heat: FieldCaution[] = scale
    ? [
        {
          id: "heat",
          words: say("In the heat: shade, water, longer rests, and no swings when it is too hot."),
          rows: heatRows(scale, say.around(...scale.rows.map((row) => row.do))).map(asSentence),
          source: plainSource(scale.source),
          ...marked(say, scale.rows.map((row) => row.do)),
        },
      ]
    : [];
  return [
    { id: "lightning", words: say("Thunder or lightning: stop at once and go into a house or a car."), ...rowsOf(tables.lightning, say) },
    ...heat,
    ...(setups.some((setup) => THROWN.includes(setup)) ? [throwingCaution(years, tables.throwing, say)] : []),
    { id: "hours", words: say("Sport is not everything: days without it belong to the week."), ...rowsOf(tables.overall, say) },
  ];
}
