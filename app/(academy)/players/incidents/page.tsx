import type { Metadata } from "next";
import { IncidentList } from "@/lib/domains/roster/components/incident-list";
import { listIncidents } from "@/lib/domains/roster/incidents/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Incidents" };

export default async function IncidentsPage({ searchParams }: { searchParams: Promise<{ after?: string }> }) {
  const { rows, next } = await listIncidents({ after: (await searchParams).after });
  return (
    <Leaf>
      <Opening title="Incidents" sub="Hits, pain and blows to the head, as they were noted. Pain that a family reports stands on the player’s own page." />
      {rows.length === 0 ? <Empty title="No incident was noted">It is noted on the player’s page. Swings stop at once.</Empty> : null}
      <IncidentList incidents={rows} hrefOf={(playerId) => `/players/${playerId}`} />
      {next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/players/incidents?${new URLSearchParams({ after: next })}`}>Older notes</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
