import { Ledger } from "@/lib/ui/ledger";
import type { AuditRow } from "../view";

/** "roster.record-consent" as "Record consent". */
function operationWords(operation: string): string {
  const words = (operation.split(".").at(-1) ?? operation).replaceAll("-", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export function AuditTable({ rows }: { rows: readonly AuditRow[] }) {
  return (
    <Ledger
      caption="What was done"
      rows={rows}
      keyOf={(row) => row.id}
      columns={[
        { head: "What", cell: (row) => operationWords(row.operation) },
        { head: "When", cell: (row) => row.at },
        { head: "By", cell: (row) => row.actorName ?? "somebody who was removed" },
        { head: "Record", cell: (row) => (row.subjectId ? row.subjectId.slice(0, 8) : "") },
      ]}
    />
  );
}
