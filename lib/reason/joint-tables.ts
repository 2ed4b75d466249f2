import { absentAhead, type AheadTerm } from "./ahead";
import { byPlaceOf, type Problem } from "./problem";
import { HELD_PRESENT, type Weights } from "./tables";
import { runAll } from "./tree";

/** One state of a few nodes beside every other node. */
export interface JointState {
  /** P(state | evidence). */
  readonly weight: number;
  /** By place: P(node present, state | evidence); 0 for nodes in front of the evidence. */
  readonly present: Float64Array;
}

/** The states of a few open nodes together with every node of the problem. */
export interface JointTables {
  /** 2^n states; bit k is the state of `open[k]`. Null when the nodes in front of the evidence hang together too much. */
  statesOf(open: readonly number[]): JointState[] | null;
}

/**
 * Each set of nodes held present (or, in front of the evidence, held absent) is one pass each way on the laid-out tree; the other
 * states follow by inclusion and exclusion. Sets that several questions share are worked out once, and all together.
 * @param asked the sets of open nodes that will be asked for
 */
export function jointTables(problem: Problem, asked: readonly (readonly number[])[]): JointTables {
  const terms = new Map<string, readonly AheadTerm[] | null>();
  for (const open of asked) {
    for (let bits = 0; bits < 1 << open.length; bits++) {
      const held = open.filter((_, k) => bits & (1 << k));
      if (!terms.has(keyOf(held))) terms.set(keyOf(held), termsOf(problem, held));
    }
  }
  const passes = [...terms].flatMap(([key, of]) => (of ?? []).map((term) => ({ key, term })));
  const found = runAll(problem.tree, problem.count, passes.map(({ term: { weights } }) => ({ change: { weights }, isPresentAsked: true })));
  const known = new Map<string, { weight: number; present: Float64Array }>();
  passes.forEach(({ key, term }, i) => {
    const { total = NaN, present = new Float64Array(0) } = found[i] ?? {};
    const share = term.factor / problem.tree.total;
    const sum = known.get(key) ?? { weight: 0, present: new Float64Array(problem.graph.nodes.length) };
    byPlaceOf(problem, present, total).forEach((part, place) => (sum.present[place] = (sum.present[place] ?? 0) + share * part));
    known.set(key, { weight: sum.weight + share * total, present: sum.present });
  });
  return { statesOf: (open) => statesOf(problem, open, (held) => known.get(keyOf(held))) };
}

const keyOf = (places: readonly number[]) => [...places].sort((a, b) => a - b).join(" ");

function termsOf(problem: Problem, held: readonly number[]): readonly AheadTerm[] | null {
  const isInside = (place: number) => problem.ownAt.has(place);
  const ahead = absentAhead(problem, held.filter((place) => !isInside(place)));
  const present = held.filter(isInside).map((place): [number, Weights] => [place, HELD_PRESENT]);
  // A node that is held present and counts for one in front of it counts that and is never absent.
  return ahead && ahead.map(({ factor, weights }) => ({ factor, weights: new Map([...weights, ...present.map(([place, [absent]]): [number, Weights] => [place, [absent, weights.get(place)?.[1] ?? 1]])]) }));
}

function statesOf(problem: Problem, open: readonly number[], allHeld: (held: readonly number[]) => JointState | undefined): JointState[] | null {
  const size = 1 << open.length;
  const states: { weight: number; present: Float64Array }[] = [];
  for (let bits = 0; bits < size; bits++) {
    const held = allHeld(open.filter((_, k) => bits & (1 << k)));
    if (!held) return null;
    states.push({ weight: Math.max(0, held.weight), present: held.present.map((part) => Math.max(0, part)) });
  }
  // From "at least these are held" to "exactly these": take away, node by node, those with one more.
  for (let k = 0; k < open.length; k++) {
    for (let bits = 0; bits < size; bits++) {
      const [from, less] = [states[bits], states[bits | (1 << k)]];
      if (bits & (1 << k) || !from || !less) continue;
      from.weight = Math.max(0, from.weight - less.weight);
      for (let place = 0; place < from.present.length; place++) from.present[place] = Math.max(0, (from.present[place] ?? 0) - (less.present[place] ?? 0));
    }
  }
  const heldAbsent = open.reduce((bits, place, k) => (problem.ownAt.has(place) ? bits : bits | (1 << k)), 0);
  return states.map((state, bits) => states[bits ^ heldAbsent] ?? state);
}
