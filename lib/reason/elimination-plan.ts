import type { Factor } from "./factor";
import { placesIn } from "./factor";
import { shapeStep, type StepShape } from "./step";

/** The product of some factors, two tables multiplied, or a variable summed out. In order: what a step needs stands before it. */
export type Step =
  | { readonly kind: "own"; readonly variables: readonly number[]; readonly factors: readonly number[]; readonly places: readonly Int32Array[]; readonly parent: number }
  | { readonly kind: "product"; readonly shape: StepShape; readonly a: number; readonly b: number; readonly parent: number }
  | { readonly kind: "sum"; readonly shape: StepShape; readonly variable: number; readonly a: number; readonly b: number; readonly parent: number };

/** The steps of an elimination, without the tables. */
export interface Plan {
  readonly steps: readonly Step[];
  readonly factors: readonly Factor[];
  /** Step that each factor stands in; −1 for plain numbers. */
  readonly stepOfFactor: Int32Array;
  /** Step that sums each variable out. */
  readonly stepOfVariable: ReadonlyMap<number, number>;
  /** Variables that are held, state by state, instead of being summed out. */
  readonly cut: readonly number[];
  /** By factor: the bit of each variable of the cut in its table; 0 where it has none. */
  readonly cutBits: readonly (readonly number[])[];
  /** What a sum is multiplied by to stay near 1: a power of two, which is exact. */
  readonly scales: Float64Array;
}

/** Entries of the table that a step hands on. */
export function sizeOf(step: Step): number {
  if (step.kind === "own") return 1 << step.variables.length;
  return 1 << (step.kind === "sum" ? step.shape.scope.length - 1 : step.shape.scope.length);
}

/** @param order holds all variables of the factors but those of the cut; @param count variables are 0 … count − 1 */
export function planOf(count: number, factors: readonly Factor[], order: readonly number[], cut: readonly number[]): Plan {
  const rank = new Int32Array(count).fill(-1);
  order.forEach((variable, position) => (rank[variable] = position));
  const byRank = (variables: readonly number[]) => [...new Set(variables)].sort((a, b) => (rank[a] ?? 0) - (rank[b] ?? 0));
  const stepOfFactor = new Int32Array(factors.length).fill(-1);
  const given: number[][] = order.map(() => []);
  const scopes = factors.map(({ variables }) => variables.filter((variable) => !cut.includes(variable)));
  scopes.forEach((variables, k) => {
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
    const variables = byRank([variable, ...own.flatMap((k) => scopes[k] ?? [])]);
    const places = own.map((k) => placesIn(variables.map((v) => bitOf(factors[k]?.variables ?? [], v))));
    const ownAt = add({ kind: "own", variables, factors: own, places, parent: -1 });
    for (const k of own) stepOfFactor[k] = ownAt;
    const inputs = [{ variables: variables as readonly number[], at: ownAt }, ...(handed[position] ?? [])];
    // At most two tables meet at full size: the small ones are multiplied among themselves first.
    while (inputs.length > 2) {
      const [i, j] = smallestPair(inputs);
      const [second] = inputs.splice(j, 1);
      const [first] = inputs.splice(i, 1);
      if (!first || !second) break;
      const [a, b] = largerFirst(first, second);
      const scope = byRank([...a.variables, ...b.variables]);
      const at = add({ kind: "product", shape: shapeStep(scope, a.variables, b.variables, false), a: a.at, b: b.at, parent: -1 });
      belongsTo(a.at, at);
      belongsTo(b.at, at);
      inputs.push({ variables: scope, at });
    }
    const [first, second] = inputs;
    if (!first) return;
    const [a, b] = second ? largerFirst(first, second) : [first];
    const scope = byRank([...a.variables, ...(b?.variables ?? [])]);
    const at = add({ kind: "sum", shape: shapeStep(scope, a.variables, b?.variables ?? null, true), variable, a: a.at, b: b?.at ?? -1, parent: -1 });
    belongsTo(a.at, at);
    if (b) belongsTo(b.at, at);
    stepOfVariable.set(variable, at);
    const rest = scope.slice(1);
    if (rest.length > 0) handed[rank[rest[0] ?? 0] ?? 0]?.push({ variables: rest, at });
  });
  const cutBits = factors.map(({ variables }) => cut.map((variable) => bitOf(variables, variable)));
  return { steps, factors, stepOfFactor, stepOfVariable, cut, cutBits, scales: new Float64Array(steps.length).fill(1) };
}

function largerFirst<T extends { readonly variables: readonly number[] }>(one: T, other: T): [T, T] {
  return other.variables.length > one.variables.length ? [other, one] : [one, other];
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

function bitOf(variables: readonly number[], variable: number): number {
  const k = variables.indexOf(variable);
  return k < 0 ? 0 : 1 << k;
}
