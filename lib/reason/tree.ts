import { chooseCut, TABLE_WIDTH } from "./cut";
import { findOrder, type EliminationOrder } from "./elimination-order";
import { planOf, type Plan } from "./elimination-plan";
import type { Factor } from "./factor";
import { Tables, type Back, type Change, type Forward } from "./tables";

/**
 * An elimination laid out once and run often: the order, who hands what to whom, and where entries stand do not depend on
 * the numbers.
 */
export interface Tree {
  /** Variables in the largest table, those that are held state by state among them. */
  readonly width: number;
  readonly logScale: number;
  /** Sum over all states of the product of all factors, divided by e^logScale. */
  readonly total: number;
  readonly plan: Plan;
}

/** What is wanted of the factors with something changed. */
export interface Asked {
  readonly change: Change;
  /** What every variable has of the total when it is present. */
  readonly isPresentAsked?: boolean;
  /** Totals wanted with other numbers for one more factor, each by itself: one pass back tells them all. */
  readonly instead?: readonly { readonly factor: number; readonly table: Float64Array }[];
}

/** What was found, in the scale of the tree. */
export interface Found {
  total: number;
  /** By variable: the total with the variable present; NaN for those in no factor, and throughout where nobody asked. */
  readonly present: Float64Array;
  readonly instead: number[];
}

/**
 * Lays the elimination of some factors out along an order that holds all their variables, and runs it once.
 * @param count variables are 0 … count − 1
 * @throws RangeError when the total is not above 0
 */
export function layOut(count: number, factors: readonly Factor[], { order, width }: EliminationOrder, tableWidth = TABLE_WIDTH): Tree {
  const cut = width > tableWidth ? chooseCut(factors.map(({ variables }) => variables), order, tableWidth) : [];
  const plan = planOf(count, factors, order.filter((variable) => !cut.includes(variable)), cut);
  let total = 0;
  for (let state = 0; state < 1 << cut.length; state++) {
    const tables = Tables.of(plan, state, state === 0);
    total += totalOf(plan, tables, tables.forward({}));
  }
  if (!(total > 0)) throw new RangeError("the total of the factors is not above 0");
  const exponents = plan.scales.reduce((sum, scale) => sum - Math.log2(scale), 0);
  return { width, plan, logScale: exponents * Math.LN2, total };
}

/** Answers many questions about one tree: the states of its cut are gone through once for all of them. */
export function runAll({ plan }: Tree, count: number, asked: readonly Asked[]): Found[] {
  const found = asked.map(({ instead, isPresentAsked }): Found => ({ total: 0, present: new Float64Array(isPresentAsked ? count : 0), instead: (instead ?? []).map(() => 0) }));
  for (let state = 0; state < 1 << plan.cut.length; state++) {
    const tables = Tables.of(plan, state);
    asked.forEach((one, i) => {
      const into = found[i];
      if (into) addTo(into, plan, tables, one, state);
    });
  }
  const isIn = new Uint8Array(count);
  for (const variable of [...plan.stepOfVariable.keys(), ...plan.cut]) isIn[variable] = 1;
  for (const { present } of found) present.forEach((_, variable) => isIn[variable] || (present[variable] = NaN));
  return found;
}

/** Lays the elimination of all but some held variables out, for one state of these after the other. */
export function planBeside(count: number, factors: readonly Factor[], held: readonly number[]): Plan {
  const scopes = factors.map(({ variables }) => variables.filter((variable) => !held.includes(variable)));
  return planOf(count, factors, findOrder(count, scopes).order, held);
}

/** What one state of a plan's held variables has of the total. @param isFirst finds the scale of all states */
export function runState(plan: Plan, count: number, state: number, isFirst: boolean): Found {
  const found: Found = { total: 0, present: new Float64Array(count), instead: [] };
  addTo(found, plan, Tables.of(plan, state, isFirst), { change: {}, isPresentAsked: true }, state);
  return found;
}

/** The answer to one question. */
export function run(tree: Tree, count: number, asked: Asked): Found {
  return runAll(tree, count, [asked])[0] ?? { total: NaN, present: new Float64Array(0), instead: [] };
}

/** Adds what one state of the cut holds. */
function addTo(found: Found, plan: Plan, tables: Tables, { change, isPresentAsked, instead = [] }: Asked, state: number): void {
  if (tables.heldOf(change) === 0) return;
  const forward = tables.forward(change);
  const total = totalOf(plan, tables, forward);
  found.total += total;
  if (!isPresentAsked && instead.length === 0) return;
  const isOwnAsked = new Uint8Array(plan.steps.length);
  for (const { factor } of instead) isOwnAsked[plan.stepOfFactor[factor] ?? -1] = 1;
  const back = tables.back(forward, isOwnAsked);
  const beside = besideRoots(plan, tables, forward);
  if (isPresentAsked) addPresent(found.present, plan, tables, back, beside, total, state);
  instead.forEach(({ factor, table }, k) => {
    const changed = { ...change, tables: new Map([...(change.tables ?? []), [factor, table] as const]) };
    const at = plan.stepOfFactor[factor] ?? -1;
    const other = at < 0 ? totalOf(plan, tables, { ...forward, plain: tables.plainOf(changed) }) : tables.rootWith(back, at, changed) * (beside[at] ?? NaN);
    found.instead[k] = (found.instead[k] ?? 0) + other;
  });
}

function addPresent(present: Float64Array, plan: Plan, tables: Tables, back: Back, beside: Float64Array, total: number, state: number): void {
  for (const [variable, at] of plan.stepOfVariable) present[variable] = (present[variable] ?? 0) + tables.presentOf(back, at) * (beside[at] ?? NaN);
  plan.cut.forEach((variable, k) => {
    if (state & (1 << k)) present[variable] = (present[variable] ?? 0) + total;
  });
}

/** By step: the plain numbers and every root but its own, multiplied. */
function besideRoots({ steps }: Plan, tables: Tables, forward: Forward): Float64Array {
  const roots = [...steps.keys()].filter((at) => (steps[at]?.parent ?? -1) < 0);
  const beside = new Float64Array(steps.length);
  for (const root of roots) beside[root] = roots.reduce((product, other) => (other === root ? product : product * tables.rootOf(forward, other)), forward.plain);
  for (let at = steps.length - 1; at >= 0; at--) {
    const parent = steps[at]?.parent ?? -1;
    if (parent >= 0) beside[at] = beside[parent] ?? NaN;
  }
  return beside;
}

/** Plain numbers and what reached a root, multiplied. */
function totalOf({ steps }: Plan, tables: Tables, forward: Forward): number {
  return steps.reduce((product, step, at) => (step.parent < 0 ? product * tables.rootOf(forward, at) : product), forward.plain);
}
