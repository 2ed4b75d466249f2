import type { ReactNode } from "react";

/** One fact: its name, and what it is. */
export interface DefinitionRow {
  term: string;
  value: ReactNode;
}

/** Facts by name; rows without a value are left out, because empty is empty. */
export function DefinitionRows({ rows }: { rows: readonly DefinitionRow[] }) {
  return (
    <dl className="words">
      {rows
        .filter((row) => row.value !== null && row.value !== undefined && row.value !== "")
        .map((row) => (
          <div key={row.term} className="word-row">
            <dt>{row.term}</dt>
            <dd>{row.value}</dd>
          </div>
        ))}
    </dl>
  );
}
