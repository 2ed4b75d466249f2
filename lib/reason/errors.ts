/** The library's parts do not make a graph. Every complaint names the ids it is about. */
export class GraphError extends Error {
  override readonly name = "GraphError";
  constructor(readonly problems: readonly string[]) {
    super(`The cause graph cannot be built: ${problems.join("; ")}.`);
  }
}

/** The evidence cannot all be true under the graph: its probability is 0. */
export class ImpossibleEvidenceError extends Error {
  override readonly name = "ImpossibleEvidenceError";
  /** @param ids observations that cannot stand beside the rest; empty when they cannot be told apart */
  constructor(readonly ids: readonly string[]) {
    super(
      ids.length > 0
        ? `These observations cannot all hold under the cause graph: ${ids.join(", ")}.`
        : "These observations cannot all hold under the cause graph.",
    );
  }
}
