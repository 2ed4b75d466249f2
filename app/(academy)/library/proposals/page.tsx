import Link from "next/link";
import { dayWords, PROPOSAL_STATES, STATE_WORDS } from "@/lib/domains/library/components/words";
import { listProposals } from "@/lib/domains/library/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Ledger } from "@/lib/ui/ledger";

export const metadata = { title: "Proposals, library" };

export default async function ProposalsPage({ searchParams }: { searchParams: Promise<{ state?: string; after?: string }> }) {
  const { state: given, after } = await searchParams;
  const state = PROPOSAL_STATES.find((known) => known === given) ?? "open";
  const { rows, next } = await listProposals({ state, after });
  return (
    <Leaf>
      <Opening
        title="Proposals"
        sub="What coaches would change. Nothing here is in force."
        actions={PROPOSAL_STATES.map((other) => (
          <ButtonLink key={other} kind="plain" href={other === "open" ? "/library/proposals" : `/library/proposals?state=${other}`} aria-current={other === state ? "page" : undefined}>
            {STATE_WORDS[other]}
          </ButtonLink>
        ))}
      />
      <Entry side={STATE_WORDS[state]} isHeading>
        {rows.length === 0 ? (
          <Empty
            title={state === "open" ? "No proposal is open." : `No proposal is ${STATE_WORDS[state]?.toLowerCase()}.`}
            action={<ButtonLink href="/library">To the library</ButtonLink>}
          >
            Open a fault or a drill and press “Propose a change”. It takes a minute or two.
          </Empty>
        ) : (
          <Ledger
            caption={`Proposals: ${STATE_WORDS[state]?.toLowerCase()}`}
            rows={rows}
            keyOf={({ id }) => id}
            columns={[
              { head: "What", cell: ({ id, recordName, isNew }) => <Link href={`/library/proposals/${id}`}>{isNew ? `New drill: ${recordName}` : recordName}</Link> },
              { head: "Why", cell: ({ reason }) => reason },
              { head: "By", cell: ({ proposedBy }) => proposedBy },
              { head: "On", cell: ({ proposedOn }) => <time dateTime={proposedOn}>{dayWords(proposedOn)}</time> },
            ]}
          />
        )}
        {next ? (
          <div className="bar-line closes">
            <ButtonLink href={`/library/proposals?state=${state}&after=${next}`}>More</ButtonLink>
          </div>
        ) : null}
      </Entry>
    </Leaf>
  );
}
