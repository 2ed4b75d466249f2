import { absentAhead } from "./ahead";
import { presentWith, type Problem } from "./problem";

/** One state of a few nodes beside every other node. */
export interface JointState {
  /** P(state | evidence). */
  readonly weight: number;
  /** By place: P(node present, state | evidence); 0 for nodes in front of the evidence. */
  readonly present: Float64Array;
}

/** The states of a few open nodes together with every node of the problem. */
export interface JointTables {
  /** 2^n states; bit k is the state of `open[k]`, which is a node of the problem or one whose causes are. */
  statesOf(open: readonly number[]): JointState[];
}

/**
 * Each set of nodes held present (or, in front of the evidence, held absent) is one pass each way on the laid-out tree, kept for
 * other questions about the same nodes; the other states follow by inclusion and exclusion.
 */
export function jointTables(problem: Problem): JointTables {
  const known = new Map<string, JointState>();
  const allHeld = (places: readonly number[]): JointState => {
    const key = [...places].sort((a, b) => a - b).join(" ");
    const before = known.get(key);
    if (before) return before;
    const found = workOut(problem, places);
    known.set(key, found);
    return found;
  };
  return {
    statesOf: (open) => {
      const size = 1 << open.length;
      const states = Array.from({ length: size }, (_, bits): { weight: number; present: Float64Array } => {
        const { weight, present } = allHeld(open.filter((_, k) => bits & (1 << k)));
        return { weight, present: present.slice() };
      });
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
    },
  };
}

function workOut(problem: Problem, places: readonly number[]): JointState {
  const isInside = (place: number) => problem.ownAt.has(place);
  const ahead = absentAhead(problem, places.filter((place) => !isInside(place)));
  if (!ahead) throw new RangeError("a cause of a node in front of the evidence is not in the problem");
  const fixed = new Map(places.filter(isInside).map((place): [number, 1] => [place, 1]));
  const { total, present } = presentWith(problem, { fixed, tables: ahead.tables });
  const weight = Math.max(0, (ahead.factor * total) / problem.tree.total);
  return { weight, present: present.map((share) => (weight > 0 ? weight * (share || 0) : 0)) };
}
