import { sizeOf, type Plan, type Step } from "./elimination-plan";
import { Workspace } from "./kernel/workspace";
import type { StepShape } from "./step";

/** What differs from the plan's own factors in one pass. */
export interface Change {
  /** Other numbers for some factors, by the factor's place in the list; the variables stay. */
  readonly tables?: ReadonlyMap<number, Float64Array>;
  /** What the two states of some variables count, absent and present; 1 and 1 where nothing is said. */
  readonly weights?: ReadonlyMap<number, Weights>;
}

export type Weights = readonly [absent: number, present: number];

/** A node taken as present, or as absent. */
export const HELD_PRESENT: Weights = [0, 1];
export const HELD_ABSENT: Weights = [1, 0];

const NUMBER_BYTES = 8;
const workspace = new Workspace();
let lying: Tables | null = null;

/** What one pass towards the roots found. */
export interface Forward {
  readonly change: Change;
  /** 1 for the steps whose tables differ from those of the pass without a change; null when none does. */
  readonly isTouched: Uint8Array | null;
  /** Where each step's table lies. */
  readonly tables: readonly number[];
  /** The plain numbers, multiplied. */
  readonly plain: number;
}

/** What one pass back found beside it. */
export interface Back {
  /** By step: where the derivative of its root by its table lies. */
  readonly derivatives: readonly number[];
  /** By step: where two numbers lie, what the root holds with the step's variable absent and present. */
  readonly shares: readonly number[];
}

/** The tables of the plan that is being worked on, for one state of its cut; they go when another plan's are brought in. */
export class Tables {
  /** By step: where its shape lies. */
  private readonly shapes: readonly number[];
  private readonly base: readonly number[];
  private readonly scratch: number[];
  private readonly backBase: number[];
  private readonly backScratch: number[];
  private readonly sharesBase: readonly number[];
  private readonly sharesScratch: readonly number[];
  /** The number 1, the derivative at a root. */
  private readonly one: number;
  private state = -1;
  /** By factor: where the numbers of the state begin. */
  private readonly starts: Int32Array;
  private isBackThere = false;

  private constructor(private readonly plan: Plan) {
    const { steps } = plan;
    workspace.clearFor(plan);
    this.shapes = steps.map((step) => (step.kind === "own" ? 0 : keepShape(step.shape)));
    this.base = steps.map((step) => workspace.reserve(NUMBER_BYTES * sizeOf(step)));
    this.sharesBase = steps.map(() => workspace.reserve(2 * NUMBER_BYTES));
    this.sharesScratch = steps.map(() => workspace.reserve(2 * NUMBER_BYTES));
    this.one = workspace.reserve(NUMBER_BYTES);
    workspace.doubles(this.one, 1)[0] = 1;
    this.starts = new Int32Array(plan.factors.length);
    this.scratch = steps.map(() => 0);
    this.backBase = steps.map(() => 0);
    this.backScratch = steps.map(() => 0);
  }

  /** The tables of a plan for one state of its cut; bit k of it is that of `cut[k]`. @param isFirst finds what each sum is multiplied by */
  static of(plan: Plan, state: number, isFirst = false): Tables {
    const tables = lying && workspace.isHeldBy(plan) ? lying : new Tables(plan);
    lying = tables;
    tables.bringIn(state, isFirst);
    return tables;
  }

  private bringIn(state: number, isFirst: boolean): void {
    if (this.state === state) return;
    this.state = state;
    this.isBackThere = false;
    this.plan.cutBits.forEach((bits, k) => (this.starts[k] = bits.reduce((start, bit, i) => ((state >> i) & 1 ? start | bit : start), 0)));
    this.plan.steps.forEach((step, at) => {
      this.fill(at, this.base, {});
      if (isFirst && step.kind === "sum") rescale(this.plan, at, this.base[at] ?? 0, sizeOf(step));
    });
  }

  /** The pass towards the roots: only what lies between a change and its root is worked out. */
  forward(change: Change): Forward {
    const { steps, stepOfFactor, stepOfVariable } = this.plan;
    const isTouched = new Uint8Array(steps.length);
    let first = steps.length;
    const touch = (from: number | undefined) => {
      if (from !== undefined && from >= 0) first = Math.min(first, from);
      for (let at = from ?? -1; at >= 0 && !isTouched[at]; at = steps[at]?.parent ?? -1) isTouched[at] = 1;
    };
    for (const k of change.tables?.keys() ?? []) touch(stepOfFactor[k]);
    for (const variable of change.weights?.keys() ?? []) touch(stepOfVariable.get(variable));
    const plain = this.plainOf(change);
    if (first === steps.length) return { change, isTouched: null, tables: this.base, plain };
    const tables = this.base.slice();
    for (let at = first; at < steps.length; at++) {
      const step = steps[at];
      if (!isTouched[at] || !step) continue;
      tables[at] = this.scratch[at] ||= workspace.reserve(NUMBER_BYTES * sizeOf(step));
      this.fill(at, tables, change);
    }
    return { change, isTouched, tables, plain };
  }

  /** What a root holds. */
  rootOf({ tables }: Forward, root: number): number {
    return workspace.doubles(tables[root] ?? 0, 1)[0] ?? 1;
  }

  /**
   * The pass back: reverse differentiation. Nothing is worked out of a root that the change does not reach, and a derivative by a
   * table changes only with what lies beside the table or above it.
   * @param isOwnAsked 1 for the steps of factors whose derivative is asked for
   */
  back(forward: Forward, isOwnAsked: Uint8Array): Back {
    const { length } = this.plan.steps;
    if (!this.isBackThere) {
      const all = new Uint8Array(length).fill(1);
      this.differentiate({ change: {}, tables: this.base }, all, all.slice(), all, this.backBase, this.backBase, this.sharesBase);
      this.isBackThere = true;
    }
    const { isTouched } = forward;
    if (!isTouched) return { derivatives: this.backBase, shares: this.sharesBase };
    const [derivatives, shares] = [this.backBase.slice(), this.sharesBase.slice()];
    this.differentiate(forward, isTouched, new Uint8Array(length), isOwnAsked, this.backScratch, derivatives, this.sharesScratch, shares);
    return { derivatives, shares };
  }

  /**
   * @param isAbove 1 where the derivative by a step's own table differs
   * @param room where derivatives go, by step; `derivatives` says where they lie
   * @param slots where shares go, by step; `shares` says where they lie
   */
  private differentiate(
    { change, tables }: Pick<Forward, "change" | "tables">, isTouched: Uint8Array, isAbove: Uint8Array, isOwnAsked: Uint8Array,
    room: number[], derivatives: number[], slots: readonly number[], shares: number[] | null = null,
  ): void {
    const { steps } = this.plan;
    const { kernel } = workspace;
    const ask = (at: number, isOther: boolean, isWritten: boolean): number => {
      const step = steps[at];
      if (!step || !isOther) return 0;
      isAbove[at] = 1;
      if (step.kind === "own" && !isOwnAsked[at]) return 0;
      const to = (room[at] ||= workspace.reserve(NUMBER_BYTES * sizeOf(step)));
      if (!isWritten) workspace.doubles(to, sizeOf(step)).fill(0);
      derivatives[at] = to;
      return to;
    };
    for (let at = steps.length - 1; at >= 0; at--) {
      const step = steps[at];
      if (!step || step.kind === "own" || (!isTouched[at] && !isAbove[at])) continue;
      const [{ a, b }, shape] = [step, this.shapes[at] ?? 0];
      const isOther = isAbove[at] === 1 || (step.kind === "sum" && change.weights?.has(step.variable) === true);
      const isWritten = step.kind === "sum" && b >= 0 && step.shape.isWhole;
      const backA = ask(a, isOther || (b >= 0 && isTouched[b] === 1), isWritten);
      const backB = b < 0 ? 0 : ask(b, isOther || isTouched[a] === 1, false);
      const derivative = step.parent < 0 ? this.one : (derivatives[at] ?? 0);
      const [tableA, tableB] = [tables[a] ?? 0, b < 0 ? 0 : (tables[b] ?? 0)];
      if (step.kind === "product") {
        kernel.differentiateProduct(shape, tableA, tableB, derivative, backA, backB);
        continue;
      }
      const [absent, present] = this.weightsOf(step, at, change);
      const slot = slots[at] ?? 0;
      if (shares) shares[at] = slot;
      if (b < 0) kernel.differentiateSumOne(shape, tableA, absent, present, derivative, backA, slot);
      else kernel.differentiateSumTwo(shape, tableA, tableB, absent, present, derivative, backA, isWritten, backB, slot);
    }
  }

  /** What the root would hold if a factor's own step stood there with these changes, by the derivative of a pass. */
  rootWith({ derivatives }: Back, ownAt: number, change: Change): number {
    const step = this.plan.steps[ownAt];
    if (step?.kind !== "own") return NaN;
    const own = new Float64Array(sizeOf(step));
    this.fillOwn(step, change, own);
    const derivative = workspace.doubles(derivatives[ownAt] ?? 0, own.length);
    return own.reduce((sum, number, i) => sum + number * (derivative[i] ?? 0), 0);
  }

  /** What a step's root holds with its variable present. */
  presentOf({ shares }: Back, at: number): number {
    return workspace.doubles(shares[at] ?? 0, 2)[1] ?? NaN;
  }

  /** What the held variables' states count, multiplied. */
  heldOf({ weights }: Change): number {
    return this.plan.cut.reduce((product, variable, k) => product * (weights?.get(variable)?.[(this.state >> k) & 1] ?? 1), 1);
  }

  /** The plain numbers among the factors, and what held variables count, multiplied. */
  plainOf(change: Change): number {
    const { factors, stepOfFactor } = this.plan;
    let plain = this.heldOf(change);
    factors.forEach((factor, k) => {
      if (stepOfFactor[k] === -1) plain *= (change.tables?.get(k) ?? factor.table)[this.starts[k] ?? 0] ?? 1;
    });
    return plain;
  }

  /** Works out the table of one step where `tables` says. */
  private fill(at: number, tables: readonly number[], change: Change): void {
    const [step, shape, into] = [this.plan.steps[at], this.shapes[at] ?? 0, tables[at] ?? 0];
    if (!step) return;
    if (step.kind === "own") {
      this.fillOwn(step, change, workspace.doubles(into, sizeOf(step)));
      return;
    }
    const { kernel } = workspace;
    const [a, b] = [tables[step.a] ?? 0, step.b < 0 ? 0 : (tables[step.b] ?? 0)];
    if (step.kind === "product") {
      kernel.multiplyTwo(shape, a, b, into);
      return;
    }
    const [absent, present] = this.weightsOf(step, at, change);
    if (step.b < 0) kernel.sumOne(shape, a, absent, present, into);
    else kernel.sumTwo(shape, a, b, absent, present, into);
  }

  private fillOwn(step: Step & { kind: "own" }, { tables }: Change, into: Float64Array): void {
    const { factors } = this.plan;
    into.fill(1);
    step.factors.forEach((k, n) => {
      const [numbers, places, start] = [tables?.get(k) ?? factors[k]?.table, step.places[n], this.starts[k] ?? 0];
      if (numbers && places) for (let i = 0; i < into.length; i++) into[i] = (into[i] ?? 0) * (numbers[(places[i] ?? 0) | start] ?? 0);
    });
  }

  /** What the two states of a step's variable count. */
  private weightsOf(step: Step & { kind: "sum" }, at: number, { weights }: Change): Weights {
    const scale = this.plan.scales[at] ?? 1;
    const [absent, present] = weights?.get(step.variable) ?? [1, 1];
    return [absent * scale, present * scale];
  }
}

/** Puts a shape there as the kernel reads it. @returns where it lies */
function keepShape({ a, b, into }: StepShape): number {
  const parts = (["outer", "middle", "inner"] as const).flatMap((part) => [
    workspace.keepInts(a[part]), b ? workspace.keepInts(b[part]) : 0, workspace.keepInts(into[part]), into[part].length,
  ]);
  return workspace.keepInts(Uint32Array.from(parts));
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
