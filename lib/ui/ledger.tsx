import type { ReactNode } from "react";

/** One column: its head, how a row fills it, and whether it holds numbers. */
export interface LedgerColumn<Row> {
  head: string;
  cell: (row: Row) => ReactNode;
  isNumber?: boolean;
  /** On a phone its content speaks for itself and needs no head. */
  isPlain?: boolean;
}

interface LedgerProps<Row> {
  /** Read aloud, not shown: what the table holds. */
  caption: string;
  /** The first column heads its row. */
  columns: readonly LedgerColumn<Row>[];
  rows: readonly Row[];
  keyOf: (row: Row) => string;
}

/** A table; on a phone each row becomes a small list with its heads written out. Roles are kept in both shapes. */
export function Ledger<Row>({ caption, columns, rows, keyOf }: LedgerProps<Row>) {
  return (
    <table className="ledger" role="table">
      <caption className="hush">{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column) => (
            <th key={column.head} scope="col" role="columnheader">
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={keyOf(row)} role="row">
            {columns.map((column, index) =>
              index === 0 ? (
                <th key={column.head} scope="row" role="rowheader">
                  {column.cell(row)}
                </th>
              ) : (
                <td
                  key={column.head}
                  role="cell"
                  className={column.isNumber ? "n" : undefined}
                  data-head={column.isPlain ? undefined : column.head}
                >
                  {column.cell(row)}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
