/**
 * A way round in a directed graph: the nodes of one cycle, first repeated at the end, or null when there is none.
 * @param nodes every node, in any order; links to nodes that are not listed are followed as well
 * @param linksOf the nodes one node points to
 */
export function findCycle(nodes: Iterable<string>, linksOf: (node: string) => readonly string[]): string[] | null {
  const isDone = new Map<string, boolean>();
  for (const start of nodes) {
    if (isDone.has(start)) continue;
    const path: string[] = [start];
    const pending: string[][] = [[...linksOf(start)]];
    isDone.set(start, false);
    while (path.length > 0) {
      const next = pending[pending.length - 1]?.pop();
      if (next === undefined) {
        isDone.set(path.pop() ?? "", true);
        pending.pop();
      } else if (isDone.get(next) === false) {
        return [...path.slice(path.indexOf(next)), next];
      } else if (!isDone.has(next)) {
        isDone.set(next, false);
        path.push(next);
        pending.push([...linksOf(next)]);
      }
    }
  }
  return null;
}
