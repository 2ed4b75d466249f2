/** Tables stay within so many variables: more of them are gone through state by state. */
export const TABLE_WIDTH = 20;

/**
 * A few variables whose states are gone through one by one, each with every other variable summed out as before: what would be one
 * table of four million numbers is four of a million, one after another in the same place. A variable that stands in all
 * large tables costs nothing that way, so these are chosen.
 * @param order holds all variables of the scopes
 * @returns variables to hold, none where no table is too large
 */
export function chooseCut(scopes: readonly (readonly number[])[], order: readonly number[], tableWidth = TABLE_WIDTH): number[] {
  let tables = tablesOf(scopes, order);
  const cut: number[] = [];
  for (;;) {
    const largest = tables.reduce((best, table) => (table.size > best.size ? table : best), new Set<number>());
    if (largest.size <= tableWidth) return cut;
    let best = { variable: -1, entries: Infinity };
    for (const variable of [...largest].sort((a, b) => a - b)) {
      const entries = tables.reduce((sum, table) => sum + 2 ** (table.size - (table.has(variable) ? 1 : 0)), 0);
      if (entries < best.entries) best = { variable, entries };
    }
    cut.push(best.variable);
    tables = tables.map((table) => new Set([...table].filter((variable) => variable !== best.variable)));
  }
}

/** The variables of every table that a variable is summed out of. */
function tablesOf(scopes: readonly (readonly number[])[], order: readonly number[]): ReadonlySet<number>[] {
  let open = scopes.map((scope): ReadonlySet<number> => new Set(scope));
  return order.map((variable) => {
    const table = new Set([variable, ...open.filter((one) => one.has(variable)).flatMap((one) => [...one])]);
    open = [...open.filter((one) => !one.has(variable)), new Set([...table].filter((one) => one !== variable))];
    return table;
  });
}
