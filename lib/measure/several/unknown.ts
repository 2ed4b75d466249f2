/** What cannot be told, with the reason as a short clause. */
export interface Unknown {
  readonly unknown: string;
}

/** An answer, or why there is none. */
export type Answer<T extends object> = T | Unknown;

/** @param reason a clause without a full stop: "fewer than two swings" */
export function unknownBecause(reason: string): Unknown {
  return { unknown: reason };
}

/** True when there is no answer; its `unknown` says why. */
export function isUnknown<T extends object>(answer: Answer<T>): answer is Unknown {
  return "unknown" in answer;
}
