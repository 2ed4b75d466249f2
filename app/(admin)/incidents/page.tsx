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
      <Opening title="Incidents" sub="Hits, pain and blows to the head, as they were noted. What a family itself reports of pain stays between family and coaches." />
      {rows.length === 0 ? <Empty title="No incident was noted">A coach notes one on the player’s page, the office on the player’s page of the roster. Swings stop at once.</Empty> : null}
      <IncidentList incidents={rows} hrefOf={(playerId) => `/roster/${playerId}`} />
      {next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/incidents?${new URLSearchParams({ after: next })}`}>Older notes</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
