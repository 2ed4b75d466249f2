/** A failure whose message is a sentence for whoever looks: what happened and what is kept. Any other error's message is for nobody's eyes. */
export class ToldProblem extends Error {}

/** The sentence of a failure, or `otherwise` for one that was not made for people. */
export function toldOf(problem: unknown, otherwise: string): string {
  return problem instanceof ToldProblem ? problem.message : otherwise;
}
