import Link from "next/link";
import { Ledger } from "@/lib/ui/ledger";
import { State } from "@/lib/ui/state";
import { ROLE_WORDS, type PersonRow } from "../view";

/** The staff, with the roles that hold today. */
export function PeopleTable({ rows }: { rows: readonly PersonRow[] }) {
  return (
    <Ledger
      caption="People"
      rows={rows}
      keyOf={(row) => row.id}
      columns={[
        { head: "Name", cell: (row) => <Link href={`/people/${row.id}`}>{row.name}</Link> },
        { head: "Roles today", cell: (row) => row.roles.map((role) => ROLE_WORDS[role]).join(", ") || "none" },
        { head: "Mail", cell: (row) => row.email ?? "none" },
        {
          head: "Sign-in",
          cell: (row) => (row.isDeactivated ? "closed" : row.hasSignedUp ? "open" : <State is="waiting">invited, not yet here</State>),
        },
      ]}
    />
  );
}
