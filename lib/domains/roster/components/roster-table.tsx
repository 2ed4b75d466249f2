import Link from "next/link";
import { Ledger } from "@/lib/ui/ledger";
import { State } from "@/lib/ui/state";
import type { PlayerRow } from "../view";
import { BATS_WORDS, SPORT_WORDS } from "./words";

/** The office's list of players. */
export function RosterTable({ rows }: { rows: readonly PlayerRow[] }) {
  return (
    <Ledger
      caption="Players"
      rows={rows}
      keyOf={(row) => row.id}
      columns={[
        { head: "Player", cell: (row) => <Link href={`/roster/${row.id}`}>{row.name}</Link> },
        { head: "Age", cell: (row) => row.ageYears, isNumber: true },
        { head: "Sport", cell: (row) => SPORT_WORDS[row.sport] },
        { head: "Bats", cell: (row) => BATS_WORDS[row.bats] },
        { head: "Coach", cell: (row) => (row.coachNames.length > 0 ? row.coachNames.join(", ") : <State is="waiting">no coach yet</State>) },
        { head: "Guardians", cell: (row) => row.guardianCount, isNumber: true },
        { head: "Filming", cell: (row) => (row.mayBeFilmed ? "allowed" : <State is="waiting">no consent</State>) },
        { head: "Swings", cell: (row) => (row.isPaused ? <State is="waiting">paused: pain reported</State> : "free") },
      ]}
    />
  );
}
