/** A whole-numbered unknown from 0 to `most` (1 = yes or no), and what one unit of it is worth. */
export interface Column {
  readonly name: string;
  readonly weight: number;
  readonly most: number;
}

/** `least` ≤ Σ factor · column ≤ `most`; an absent end is open. */
export interface Row {
  readonly terms: readonly (readonly [factor: number, column: string])[];
  readonly least?: number;
  readonly most?: number;
}

/** Which whole numbers make the sum of weights largest (or smallest) while every row holds. */
export interface LinearModel {
  readonly sense: "most" | "least";
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** What a solver says of a model in CPLEX LP text. `gap` is the proven relative distance to the best possible, 0 = proved best. */
export interface SolverAnswer {
  readonly status: "best" | "good" | "impossible" | "no-answer";
  readonly gap: number;
  readonly values: Readonly<Record<string, number>>;
}

/** Solves a model written as CPLEX LP text within so many seconds. */
export type Solver = (lpText: string, seconds: number) => Promise<SolverAnswer>;

export interface Solved {
  readonly status: SolverAnswer["status"];
  readonly gap: number;
  /** The sum of weights; 0 without an answer. */
  readonly value: number;
  /** How many of each column, by its name. */
  readonly of: (column: string) => number;
}

const columnName = (index: number) => `c${index}`;

function sumText(terms: readonly (readonly [number, string])[], indexOf: ReadonlyMap<string, number>): string {
  const parts = terms.map(([factor, name]) => {
    const index = indexOf.get(name);
    if (index === undefined) throw new RangeError(`no column ${name}`);
    if (!Number.isFinite(factor)) throw new RangeError(`the factor of ${name} is ${factor}`);
    return `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} ${columnName(index)}`;
  });
  return parts.length > 0 ? parts.join(" ") : `+ 0 ${columnName(0)}`;
}

/** The model as CPLEX LP text: columns are called c0, c1 … in their order, since a drill's id may be a word of that language. */
export function lpText({ sense, columns, rows }: LinearModel): string {
  const indexOf = new Map(columns.map(({ name }, index) => [name, index]));
  if (indexOf.size < columns.length) throw new RangeError("two columns have one name");
  const rowLines = rows.flatMap(({ terms, least, most }, index) => {
    const sum = sumText(terms, indexOf);
    return [...(most === undefined ? [] : [` m${index}: ${sum} <= ${most}`]), ...(least === undefined ? [] : [` l${index}: ${sum} >= ${least}`])];
  });
  return [
    sense === "most" ? "Maximize" : "Minimize",
    ` sum: ${sumText(columns.map(({ name, weight }) => [weight, name] as const), indexOf)}`,
    "Subject To", ...rowLines,
    "Bounds", ...columns.map(({ most }, index) => ` 0 <= ${columnName(index)} <= ${most}`),
    "Generals", ...columns.map((_, index) => ` ${columnName(index)}`),
    "End", "",
  ].join("\n");
}

/**
 * Solves the model exactly, or as well as the time allows and then says how far from the best it may be.
 * An answer of the solver that breaks a row or is not whole is an error, not an answer.
 */
export async function solve(model: LinearModel, solver: Solver, seconds: number): Promise<Solved> {
  if (model.columns.length === 0) {
    const isPossible = model.rows.every(({ least }) => (least ?? 0) <= 0);
    return { status: isPossible ? "best" : "impossible", gap: 0, value: 0, of: () => 0 };
  }
  const { status, gap, values } = await solver(lpText(model), seconds);
  const counts = new Map(model.columns.map(({ name }, index) => [name, Math.round(values[columnName(index)] ?? 0)]));
  const of = (name: string) => counts.get(name) ?? 0;
  if (status !== "best" && status !== "good") return { status, gap, value: 0, of: () => 0 };
  for (const { terms, least, most } of model.rows) {
    const sum = terms.reduce((so, [factor, name]) => so + factor * of(name), 0);
    if (sum > (most ?? Infinity) + 1e-6 || sum < (least ?? -Infinity) - 1e-6) throw new Error("the solver's answer breaks a row of the model");
  }
  return { status, gap, value: model.columns.reduce((sum, { name, weight }) => sum + weight * of(name), 0), of };
}
