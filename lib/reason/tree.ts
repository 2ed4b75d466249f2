import type { EliminationOrder } from "./elimination-order";
import { planOf, sizeOf, type Plan, type Step } from "./elimination-plan";
import type { Factor } from "./factor";
import { Workspace } from "./kernel/workspace";
import type { StepShape } from "./step";

/** What differs from the tree's own factors in one pass. */
export interface Change {
  /** Other numbers for some factors, by the factor's place in the list; the variables stay. */
  readonly tables?: ReadonlyMap<number, Float64Array>;
  /** Variables held at one state. */
  readonly fixed?: ReadonlyMap<number, 0 | 1>;
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
  /** Sum over all states of the product of all factors, divided by e^logScale. */
  readonly total: number;
  readonly plan: Plan;
}

/** Where the tables of the plan that is being worked on lie, by step; 0 for those that do not lie there yet. */
interface Laid {
  readonly placed: readonly Placed[];
  /** The pass without any change. */
  readonly base: number[];
  /** Written over by every pass with a change. */
  readonly scratch: number[];
  /** Written over by every pass back; null until there is one. */
  back: Back | null;
}

/** Where the numbers of a pass back lie. */
interface Back {
  /** By step: the derivative of the total by what the step handed on; 0 for factors, by which nobody asks. */
  readonly tables: readonly number[];
  readonly start: number;
  /** Numbers in all tables together. */
  readonly length: number;
  /** The number 1, the derivative at a root. */
  readonly one: number;
  /** Two numbers a step: what the total holds with its variable absent and present. */
  readonly shares: number;
}

/** Addresses and counts of a shape's placings. */
interface Placed {
  readonly lowA: number;
  readonly highA: number;
  readonly lowB: number;
  readonly highB: number;
  readonly lowCount: number;
  readonly highCount: number;
}

const NUMBER_BYTES = 8;

const workspace = new Workspace();
let lying: Laid | null = null;

/** Lays the elimination of some factors out along an order that holds all their variables, and runs it once. @throws RangeError when the total is not above 0 */
export function layOut(count: number, factors: readonly Factor[], { order, width, entries }: EliminationOrder): Tree {
  const plan = planOf(count, factors, order);
  const { base } = bringIn(plan, true);
  const total = totalOf(plan, base, undefined);
  if (!(total > 0)) throw new RangeError("the total of the factors is not above 0");
  const exponents = plan.scales.reduce((sum, scale) => sum - Math.log2(scale), 0);
  return { width, entries, plan, logScale: exponents * Math.LN2, total };
}

/** The total with something changed, in the scale of the tree. */
export function totalWith({ plan }: Tree, change: Change): number {
  return totalOf(plan, runForward(plan, laidOf(plan), change), change.tables);
}

/**
 * A pass each way: the total, and for every variable the share of its state 1 in it, 0–1; NaN for those in no factor.
 * @param count variables are 0 … count − 1
 */
export function sharesWith({ plan }: Tree, count: number, change: Change = {}): { total: number; share: Float64Array } {
  const laid = laidOf(plan);
  const tables = runForward(plan, laid, change);
  const total = totalOf(plan, tables, change.tables);
  const share = new Float64Array(count).fill(NaN);
  const { steps } = plan;
  const back = (laid.back ??= roomForBack(steps));
  workspace.doubles(back.start, back.length).fill(0);
  const { kernel } = workspace;
  for (let at = steps.length - 1; at >= 0; at--) {
    const [step, placed] = [steps[at], laid.placed[at]];
    if (!step || !placed || step.kind === "own") continue;
    const [tableA, tableB] = [tables[step.a] ?? 0, step.b < 0 ? 0 : (tables[step.b] ?? 0)];
    // Nobody asks for the derivative by the factors themselves.
    const [backA, backB] = [back.tables[step.a] ?? 0, step.b < 0 ? 0 : (back.tables[step.b] ?? 0)];
    const derivative = step.parent < 0 ? back.one : (back.tables[at] ?? 0);
    const { lowA, highA, lowB, highB, lowCount, highCount } = placed;
    if (step.kind === "product") {
      kernel.differentiateProduct(tableA, lowA, highA, tableB, lowB, highB, lowCount, highCount, derivative, backA, backB);
      continue;
    }
    const { absent, present } = weightsOf(plan, at, change.fixed);
    const shares = back.shares + 2 * NUMBER_BYTES * at;
    if (step.b < 0) kernel.differentiateSumOne(tableA, lowA, highA, lowCount, highCount, absent, present, derivative, backA, shares);
    else kernel.differentiateSumTwo(tableA, lowA, highA, tableB, lowB, highB, lowCount, highCount, absent, present, derivative, backA, backB, shares);
  }
  const shares = workspace.doubles(back.shares, 2 * steps.length);
  steps.forEach((step, at) => {
    if (step.kind !== "sum") return;
    const [absent, present] = [shares[2 * at] ?? 0, shares[2 * at + 1] ?? 0];
    share[step.variable] = Math.min(1, Math.max(0, present / (absent + present)));
  });
  return { total, share };
}

function roomForBack(steps: Plan["steps"]): Back {
  const one = workspace.reserve(NUMBER_BYTES);
  const shares = workspace.reserve(2 * NUMBER_BYTES * steps.length);
  const tables = steps.map((step) => (step.kind === "own" ? 0 : workspace.reserve(NUMBER_BYTES * sizeOf(step))));
  const start = tables.find((at) => at > 0) ?? one;
  const length = (workspace.reserve(0) - start) / NUMBER_BYTES;
  workspace.doubles(one, 1)[0] = 1;
  return { tables, start, length, one, shares };
}

/** The tables of a plan, laid out anew when another plan's lie there. */
function laidOf(plan: Plan): Laid {
  return lying && workspace.isHeldBy(plan) ? lying : bringIn(plan, false);
}

/** @param isFirst finds what each sum is multiplied by */
function bringIn(plan: Plan, isFirst: boolean): Laid {
  const { steps } = plan;
  workspace.clearFor(plan, steps.reduce((sum, step) => sum + 2 * NUMBER_BYTES * sizeOf(step), 0));
  const laid: Laid = {
    placed: steps.map((step) => (step.kind === "own" ? NOWHERE : place(step.shape))),
    base: steps.map((step) => workspace.reserve(NUMBER_BYTES * sizeOf(step))),
    scratch: new Array<number>(steps.length).fill(0),
    back: null,
  };
  steps.forEach((step, at) => {
    fill(plan, laid, at, laid.base, undefined, undefined);
    if (isFirst && step.kind === "sum") rescale(plan, at, laid.base[at] ?? 0, sizeOf(step));
  });
  lying = laid;
  return laid;
}

const NOWHERE: Placed = { lowA: 0, highA: 0, lowB: 0, highB: 0, lowCount: 0, highCount: 0 };

function place({ a, b }: StepShape): Placed {
  return {
    lowA: workspace.keepInts(a.low), highA: workspace.keepInts(a.high), lowB: b ? workspace.keepInts(b.low) : 0, highB: b ? workspace.keepInts(b.high) : 0,
    lowCount: a.low.length, highCount: a.high.length,
  };
}

/** The pass towards the root. @returns where each step's table lies */
function runForward(plan: Plan, laid: Laid, { tables: changed, fixed }: Change): readonly number[] {
  const { steps } = plan;
  const isTouched = new Uint8Array(steps.length);
  const touch = (at: number | undefined) => {
    if (at !== undefined && at >= 0) isTouched[at] = 1;
  };
  for (const k of changed?.keys() ?? []) touch(plan.stepOfFactor[k]);
  for (const variable of fixed?.keys() ?? []) touch(plan.stepOfVariable.get(variable));
  if (!isTouched.includes(1)) return laid.base;
  const tables = [...laid.base];
  steps.forEach((step, at) => {
    if (!isTouched[at]) return;
    tables[at] = laid.scratch[at] ||= workspace.reserve(NUMBER_BYTES * sizeOf(step));
    fill(plan, laid, at, tables, changed, fixed);
    touch(step.parent);
  });
  return tables;
}

/** Works out the table of one step where `tables` says. */
function fill(plan: Plan, laid: Laid, at: number, tables: readonly number[], changed: Change["tables"], fixed: Change["fixed"]): void {
  const [step, placed, into] = [plan.steps[at], laid.placed[at], tables[at] ?? 0];
  if (!step || !placed) return;
  if (step.kind === "own") {
    fillOwn(plan, step, changed, workspace.doubles(into, sizeOf(step)));
    return;
  }
  const { kernel } = workspace;
  const { lowA, highA, lowB, highB, lowCount, highCount } = placed;
  const [a, b] = [tables[step.a] ?? 0, step.b < 0 ? 0 : (tables[step.b] ?? 0)];
  if (step.kind === "product") {
    kernel.multiplyTwo(a, lowA, highA, b, lowB, highB, lowCount, highCount, into);
    return;
  }
  const { absent, present } = weightsOf(plan, at, fixed);
  if (step.b < 0) kernel.sumOne(a, lowA, highA, lowCount, highCount, absent, present, into);
  else kernel.sumTwo(a, lowA, highA, b, lowB, highB, lowCount, highCount, absent, present, into);
}

function fillOwn(plan: Plan, step: Step & { kind: "own" }, changed: Change["tables"], into: Float64Array): void {
  into.fill(1);
  step.factors.forEach((k, n) => {
    const [numbers, places] = [changed?.get(k) ?? plan.factors[k]?.table, step.places[n]];
    if (numbers && places) for (let i = 0; i < into.length; i++) into[i] = (into[i] ?? 0) * (numbers[places[i] ?? 0] ?? 0);
  });
}

/** What the two states of a step's variable count. */
function weightsOf({ steps, scales }: Plan, at: number, fixed: Change["fixed"]): { absent: number; present: number } {
  const step = steps[at];
  const scale = scales[at] ?? 1;
  const state = step?.kind === "sum" ? fixed?.get(step.variable) : undefined;
  return { absent: state === 1 ? 0 : scale, present: state === 0 ? 0 : scale };
}

/** Plain numbers and what reached a root, multiplied. */
function totalOf({ steps, factors, stepOfFactor }: Plan, tables: readonly number[], changed: Change["tables"]): number {
  let total = 1;
  factors.forEach((factor, k) => {
    if (stepOfFactor[k] === -1) total *= (changed?.get(k) ?? factor.table)[0] ?? 1;
  });
  steps.forEach((step, at) => {
    if (step.parent < 0) total *= workspace.doubles(tables[at] ?? 0, 1)[0] ?? 1;
  });
  return total;
}

/** Multiplies a table by the power of two that brings its largest entry to between 1/2 and 1. */
function rescale({ scales }: Plan, at: number, address: number, size: number): void {
  const table = workspace.doubles(address, size);
  const largest = size < 2 ? Math.abs(table[0] ?? 0) : workspace.kernel.largestOf(address, size);
  if (!(largest > 0 && Number.isFinite(largest))) return;
  const scale = 2 ** -Math.ceil(Math.log2(largest));
  scales[at] = scale;
  for (let i = 0; i < size; i++) table[i] = (table[i] ?? 0) * scale;
}
