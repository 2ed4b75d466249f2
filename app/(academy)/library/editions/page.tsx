import Link from "next/link";
import { dayWords } from "@/lib/domains/library/components/words";
import { listEditions } from "@/lib/domains/library/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Ledger } from "@/lib/ui/ledger";

export const metadata = { title: "Editions, library" };

export default async function EditionsPage({ searchParams }: { searchParams: Promise<{ before?: string }> }) {
  const { rows, next } = await listEditions({ before: (await searchParams).before });
  return (
    <Leaf>
      <Opening title="Editions" sub="Each approval makes one, and none ever changes. What was called, ranked and sent keeps the edition of its day." />
      <Entry side="Newest first" isHeading>
        <Ledger
          caption="Editions of the library"
          rows={rows}
          keyOf={({ id }) => id}
          columns={[
            {
              head: "Edition",
              cell: ({ number, isInForce }) => (
                <>
                  {number}
                  {isInForce ? <span className="note"> in force</span> : null}
                </>
              ),
            },
            { head: "Day", cell: ({ approvedOn }) => <time dateTime={approvedOn}>{dayWords(approvedOn)}</time> },
            { head: "Approved by", cell: ({ approvedBy }) => approvedBy ?? "came with the house" },
            { head: "What", cell: ({ summary, proposalId }) => (proposalId ? <Link href={`/library/proposals/${proposalId}`}>{summary}</Link> : summary) },
            { head: "Fingerprint", cell: ({ contentHash }) => <span title={contentHash}>{contentHash.slice(0, 12)}</span> },
          ]}
        />
        {next ? (
          <div className="bar-line closes">
            <ButtonLink href={`/library/editions?before=${next}`}>More</ButtonLink>
          </div>
        ) : null}
      </Entry>
    </Leaf>
  );
}
