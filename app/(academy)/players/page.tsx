import type { Metadata } from "next";
import Link from "next/link";
import { currentActor } from "@/lib/access/current-actor";
import { listPlayers } from "@/lib/domains/roster/queries";
import { listSeasons } from "@/lib/domains/roster/seasons/queries";
import type { PlayerRow } from "@/lib/domains/roster/view";
import { Button, ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Ledger, type LedgerColumn } from "@/lib/ui/ledger";
import { TextInput } from "@/lib/ui/text-input";

export const metadata: Metadata = { title: "Players" };

const SIDE_WORDS = { right: "right", left: "left", both: "both sides" };

const COLUMNS: readonly LedgerColumn<PlayerRow>[] = [
  { head: "Player", cell: (row) => <Link href={`/players/${row.id}`}>{row.name}</Link> },
  { head: "Age", cell: (row) => row.ageYears, isNumber: true },
  { head: "Bats", cell: (row) => `${SIDE_WORDS[row.bats]}${row.sport === "softball" ? ", softball" : ""}` },
  { head: "Coach", cell: (row) => row.coachNames.join(", ") },
  { head: "Waiting", cell: (row) => (row.isPaused ? "Swings stopped" : row.mayBeFilmed ? "" : "Consent to film: not given") },
];

export default async function PlayersPage({ searchParams }: { searchParams: Promise<{ search?: string; after?: string }> }) {
  const { search = "", after } = await searchParams;
  const mayPlanSeasons = await listSeasons.operation.permits(await currentActor(), {});
  const { rows, next } = await listPlayers({ search, after });
  return (
    <Leaf>
      <Opening
        title="Players"
        sub="Everybody you teach, by family name."
        actions={
          mayPlanSeasons ? (
            <>
              <ButtonLink href="/players/seasons">Seasons</ButtonLink>
              <ButtonLink href="/players/incidents">Incidents</ButtonLink>
            </>
          ) : undefined
        }
      />
      <form role="search" className="bar-line opens" action="/players">
        <TextInput label="Find a player" name="search" type="search" defaultValue={search} />
        <Button type="submit">Find</Button>
      </form>
      {rows.length > 0 ? (
        <Ledger caption="Players" columns={COLUMNS} rows={rows} keyOf={(row) => row.id} />
      ) : (
        <Empty title={search ? `Nobody here is called “${search}”` : "Nobody here yet"}>
          {search ? "Try the first letters of the first or the family name." : "An admin adds players and says who coaches them."}
        </Empty>
      )}
      {next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/players?${new URLSearchParams({ search, after: next })}`}>More players</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
