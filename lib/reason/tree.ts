import type { EliminationOrder } from "./elimination-order";
import type { Factor } from "./factor";
import { placesIn } from "./factor";
import { differentiateProduct, differentiateSum, multiply, shapeStep, sumOut, type StepShape, type Weights } from "./step";

/** What differs from the tree's own factors in one pass. */
export interface Change {
  /** Other numbers for some factors, by the factor's place in the list; the variables stay. */
  readonly tables?: ReadonlyMap<number, Float64Array>;
  /** Variables held at one state. */
  readonly fixed?: ReadonlyMap<number, 0 | 1>;
}

/** The numbers of one pass towards the root. */
export interface Pass {
  /** Sum over all states of the product of all factors, divided by e^logScale of the tree, so that totals compare. */
  readonly total: number;
  /** What each step hands on. */
  readonly tables: readonly Float64Array[];
  readonly fixed: ReadonlyMap<number, 0 | 1>;
}

/**
 * An elimination laid out once and run often: the order, who hands what to whom, and where entries stand do not depend on
 * the numbers. A pass with a change works out only what lies between the change and the root.
 */
export interface Tree {
  readonly width: number;
  /** Entries of all tables that a variable is summed out of. */
  readonly entries: number;
  readonly logScale: number;
  /** The pass without any change. */
  readonly base: Pass;
  readonly plan: Plan;
}

/** The product of some factors, two tables multiplied, or a variable summed out. In order: what a step needs stands before it. */
type Step =
  | { readonly kind: "own"; readonly variables: readonly number[]; readonly factors: readonly number[]; readonly places: readonly Int32Array[]; readonly parent: number }
  | { readonly kind: "product"; readonly shape: StepShape; readonly a: number; readonly b: number; readonly parent: number }
  | { readonly kind: "sum"; readonly shape: StepShape; readonly variable: number; readonly a: number; readonly b: number; readonly parent: number };

interface Plan {
  readonly steps: readonly Step[];
  readonly factors: readonly Factor[];
  /** Step that each factor stands in; −1 for plain numbers. */
  readonly stepOfFactor: Int32Array;
  /** Step that sums each variable out. */
  readonly stepOfVariable: ReadonlyMap<number, number>;
  /** What a sum is multiplied by to stay near 1: a power of two, which is exact. */
  readonly scales: Float64Array;
  /** Tables that are written over by every pass with a change, and by every pass back. */
  readonly scratch: (Float64Array | undefined)[];
  readonly back: (Float64Array | undefined)[];
}

const NOTHING_FIXED: ReadonlyMap<number, 0 | 1> = new Map();

/** Lays the elimination of some factors out along an order that holds all their variables, and runs it once. @throws RangeError when the total is not above 0 */
export function layOut(count: number, factors: readonly Factor[], { order, width, entries }: EliminationOrder): Tree {
  const plan = planOf(count, factors, order);
  const tables: Float64Array[] = [];
  let exponents = 0;
  for (const [at, step] of plan.steps.entries()) {
    const table = new Float64Array(sizeOf(step));
    fill(plan, step, tables, undefined, BOTH, table);
    if (step.kind === "sum") {
      const exponent = exponentOf(table);
      plan.scales[at] = 2 ** -exponent;
      for (let i = 0; i < table.length; i++) table[i] = (table[i] ?? 0) * 2 ** -exponent;
      exponents += exponent;
    }
    tables.push(table);
  }
  const total = totalOf(plan, tables, undefined);
  if (!(total > 0)) throw new RangeError("the total of the factors is not above 0");
  return { width, entries, plan, logScale: exponents * Math.LN2, base: { total, tables, fixed: NOTHING_FIXED } };
}

const BOTH: Weights = { absent: 1, present: 1 };

/**
 * A pass towards the root with something changed. Its tables are written over by the next one on the same tree; the total is
 * what most ask for.
 */
export function runWith({ plan, base }: Tree, { tables: changed, fixed = NOTHING_FIXED }: Change): Pass {
  const isTouched = new Uint8Array(plan.steps.length);
  const touch = (at: number | undefined) => {
    if (at !== undefined && at >= 0) isTouched[at] = 1;
  };
  for (const k of changed?.keys() ?? []) touch(plan.stepOfFactor[k]);
  for (const variable of fixed.keys()) touch(plan.stepOfVariable.get(variable));
  const tables = [...base.tables];
  for (const [at, step] of plan.steps.entries()) {
    if (!isTouched[at]) continue;
    const table = (plan.scratch[at] ??= new Float64Array(sizeOf(step)));
    fill(plan, step, tables, changed, weightsOf(plan, at, fixed), table);
    tables[at] = table;
    touch(step.parent);
  }
  return { total: totalOf(plan, tables, changed), tables, fixed };
}

/**
 * The pass back from the root: for every variable the share of its state 1 in the total, 0–1.
 * @returns by variable; NaN for those in no factor
 */
export function sharesOf({ plan }: Tree, count: number, pass: Pass): Float64Array {
  const share = new Float64Array(count).fill(NaN);
  const { steps, back } = plan;
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at];
    if (!step || step.kind === "own") continue;
    const [tableA, tableB] = [pass.tables[step.a], step.b < 0 ? null : (pass.tables[step.b] ?? null)];
    if (!tableA) continue;
    const [backA, backB] = [backOf(plan, step.a), step.b < 0 ? null : backOf(plan, step.b)];
    const derivative = step.parent < 0 ? ONE : (back[at] ?? ONE);
    if (step.kind === "product") {
      if (tableB) differentiateProduct(step.shape, tableA, tableB, derivative, backA, backB);
      continue;
    }
    const { absent, present } = differentiateSum(step.shape, tableA, tableB, derivative, weightsOf(plan, at, pass.fixed), backA, backB);
    share[step.variable] = Math.min(1, Math.max(0, present / (absent + present)));
  }
  return share;
}

const ONE = Float64Array.of(1);

/** An empty table for the derivative by what a step handed on; nobody asks for it by the factors. */
function backOf({ steps, back }: Plan, at: number): Float64Array | null {
  const step = steps[at];
  if (!step || step.kind === "own") return null;
  const table = (back[at] ??= new Float64Array(sizeOf(step)));
  table.fill(0);
  return table;
}

function weightsOf({ steps, scales }: Plan, at: number, fixed: ReadonlyMap<number, 0 | 1>): Weights {
  const step = steps[at];
  const scale = scales[at] ?? 1;
  const state = step?.kind === "sum" ? fixed.get(step.variable) : undefined;
  return { absent: state === 1 ? 0 : scale, present: state === 0 ? 0 : scale };
}

function fill(plan: Plan, step: Step, tables: readonly Float64Array[], changed: Change["tables"], weights: Weights, into: Float64Array): void {
  if (step.kind === "own") {
    into.fill(1);
    step.factors.forEach((k, n) => {
      const numbers = changed?.get(k) ?? plan.factors[k]?.table;
      const places = step.places[n];
      if (numbers && places) for (let i = 0; i < into.length; i++) into[i] = (into[i] ?? 0) * (numbers[places[i] ?? 0] ?? 0);
    });
    return;
  }
  const [a, b] = [tables[step.a], step.b < 0 ? null : (tables[step.b] ?? null)];
  if (!a) return;
  if (step.kind === "sum") sumOut(step.shape, a, b, weights, into);
  else if (b) multiply(step.shape, a, b, into);
}

function sizeOf(step: Step): number {
  if (step.kind === "own") return 1 << step.variables.length;
  return 1 << (step.kind === "sum" ? step.shape.scope.length - 1 : step.shape.scope.length);
}

function planOf(count: number, factors: readonly Factor[], order: readonly number[]): Plan {
  const rank = new Int32Array(count).fill(-1);
  order.forEach((variable, position) => (rank[variable] = position));
  const byRank = (variables: readonly number[]) => [...new Set(variables)].sort((a, b) => (rank[a] ?? 0) - (rank[b] ?? 0));
  const stepOfFactor = new Int32Array(factors.length).fill(-1);
  const given: number[][] = order.map(() => []);
  factors.forEach(({ variables }, k) => {
    if (variables.length > 0) given[Math.min(...variables.map((v) => rank[v] ?? 0))]?.push(k);
  });
  const steps: Step[] = [];
  const handed: { variables: readonly number[]; at: number }[][] = order.map(() => []);
  const add = (step: Step): number => steps.push(step) - 1;
  const belongsTo = (at: number, parent: number) => {
    const step = steps[at];
    if (step) steps[at] = { ...step, parent };
  };
  const stepOfVariable = new Map<number, number>();
  order.forEach((variable, position) => {
    const own = given[position] ?? [];
    const variables = byRank([variable, ...own.flatMap((k) => factors[k]?.variables ?? [])]);
    const places = own.map((k) => placesIn(variables.map((v) => bitOf(factors[k]?.variables ?? [], v))));
    const ownAt = add({ kind: "own", variables, factors: own, places, parent: -1 });
    for (const k of own) stepOfFactor[k] = ownAt;
    const inputs = [{ variables: variables as readonly number[], at: ownAt }, ...(handed[position] ?? [])];
    // At most two tables meet at full size: the small ones are multiplied among themselves first.
    while (inputs.length > 2) {
      const [i, j] = smallestPair(inputs);
      const [b] = inputs.splice(j, 1);
      const [a] = inputs.splice(i, 1);
      if (!a || !b) break;
      const scope = byRank([...a.variables, ...b.variables]);
      const at = add({ kind: "product", shape: shapeStep(scope, a.variables, b.variables), a: a.at, b: b.at, parent: -1 });
      belongsTo(a.at, at);
      belongsTo(b.at, at);
      inputs.push({ variables: scope, at });
    }
    const [a, b] = inputs;
    if (!a) return;
    const scope = byRank([...a.variables, ...(b?.variables ?? [])]);
    const at = add({ kind: "sum", shape: shapeStep(scope, a.variables, b?.variables ?? null), variable, a: a.at, b: b?.at ?? -1, parent: -1 });
    belongsTo(a.at, at);
    if (b) belongsTo(b.at, at);
    stepOfVariable.set(variable, at);
    const rest = scope.slice(1);
    if (rest.length > 0) handed[rank[rest[0] ?? 0] ?? 0]?.push({ variables: rest, at });
  });
  return { steps, factors, stepOfFactor, stepOfVariable, scales: new Float64Array(steps.length).fill(1), scratch: [], back: [] };
}

/** The two inputs with the fewest variables together; of equals the earlier ones. */
function smallestPair(inputs: readonly { readonly variables: readonly number[] }[]): [number, number] {
  let best: [number, number] = [0, 1];
  let least = Infinity;
  for (let i = 0; i < inputs.length; i++) {
    for (let j = i + 1; j < inputs.length; j++) {
      const size = new Set([...(inputs[i]?.variables ?? []), ...(inputs[j]?.variables ?? [])]).size;
      if (size < least) [least, best] = [size, [i, j]];
    }
  }
  return best;
}

/** Plain numbers and what reached a root, multiplied. */
function totalOf({ steps, factors, stepOfFactor }: Plan, tables: readonly Float64Array[], changed: Change["tables"]): number {
  let total = 1;
  factors.forEach((factor, k) => {
    if (stepOfFactor[k] === -1) total *= (changed?.get(k) ?? factor.table)[0] ?? 1;
  });
  steps.forEach((step, at) => {
    if (step.parent < 0) total *= tables[at]?.[0] ?? 1;
  });
  return total;
}

/** The power of two that brings the largest entry to between 1/2 and 1; 0 for a table of nothing. */
function exponentOf(table: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < table.length; i++) largest = Math.max(largest, Math.abs(table[i] ?? 0));
  return largest > 0 && Number.isFinite(largest) ? Math.ceil(Math.log2(largest)) : 0;
}

function bitOf(variables: readonly number[], variable: number): number {
  const k = variables.indexOf(variable);
  return k < 0 ? 0 : 1 << k;
}
