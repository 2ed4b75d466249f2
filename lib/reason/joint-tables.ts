import { presentWith, type Problem } from "./problem";

/** One state of a few nodes beside every other node. */
export interface JointState {
  /** P(state | evidence). */
  readonly weight: number;
  /** By place: P(node present, state | evidence). */
  readonly present: Float64Array;
}

/** The states of a few open nodes together with every node of the problem. */
export interface JointTables {
  /** 2^n states; bit k is the state of `open[k]`. */
  statesOf(open: readonly number[]): JointState[];
}

/**
 * Each set of nodes held present is one pass each way on the laid-out tree, kept for other questions about the same nodes;
 * the other states follow by inclusion and exclusion.
 */
export function jointTables(problem: Problem): JointTables {
  const known = new Map<string, JointState>();
  const allPresent = (places: readonly number[]): JointState => {
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
        const { weight, present } = allPresent(open.filter((_, k) => bits & (1 << k)));
        return { weight, present: present.slice() };
      });
      // From "at least these are present" to "exactly these": take away, node by node, those with one more.
      for (let k = 0; k < open.length; k++) {
        for (let bits = 0; bits < size; bits++) {
          const [from, less] = [states[bits], states[bits | (1 << k)]];
          if (bits & (1 << k) || !from || !less) continue;
          from.weight = Math.max(0, from.weight - less.weight);
          for (let place = 0; place < from.present.length; place++) from.present[place] = Math.max(0, (from.present[place] ?? 0) - (less.present[place] ?? 0));
        }
      }
      return states;
    },
  };
}

function workOut(problem: Problem, places: readonly number[]): JointState {
  const { total, present } = presentWith(problem, { fixed: new Map(places.map((place) => [place, 1])) });
  const weight = Math.max(0, total / problem.tree.total);
  return { weight, present: present.map((share) => (weight > 0 ? weight * (share || 0) : 0)) };
}
