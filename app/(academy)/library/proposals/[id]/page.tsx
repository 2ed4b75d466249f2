import Link from "next/link";
import { DecideForms, WithdrawForm } from "@/lib/domains/library/components/decide-forms";
import { Differences } from "@/lib/domains/library/components/differences";
import { dayWords, fieldWords, STATE_WORDS } from "@/lib/domains/library/components/words";
import { getProposal } from "@/lib/domains/library/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata = { title: "A proposal, library" };

export default async function ProposalPage({ params }: { params: Promise<{ id: string }> }) {
  const proposal = await getProposal({ proposalId: (await params).id });
  const isOpen = proposal.state === "open";
  const isThere = !proposal.isNew || proposal.state === "approved";
  return (
    <Leaf>
      <Opening
        title={`${proposal.isNew ? "New drill" : "Change"}: ${proposal.recordName}`}
        sub={
          <>
            {STATE_WORDS[proposal.state]}. Proposed by {proposal.proposedBy} on <time dateTime={proposal.proposedOn}>{dayWords(proposal.proposedOn)}</time>, written against edition{" "}
            {proposal.editionNumberThen}.
          </>
        }
        actions={
          isThere ? (
            <Link className="btn plain" href={`/library/${proposal.subject}s/${proposal.recordId}`}>
              To the {proposal.subject}
            </Link>
          ) : null
        }
      />
      <Entry side="Why" isHeading>
        <p className="measure">{proposal.reason}</p>
      </Entry>
      <Differences differences={proposal.differences} before={isOpen ? "In force now" : "As it was"} after={isOpen ? "As proposed" : "As it was proposed"} />
      {proposal.problems.length > 0 ? (
        <Entry side="In the way" isHeading>
          <Problem
            happened="It cannot be taken as it is."
            kept="The proposal is kept as it was written; the library is as it was."
            todo={
              <>
                {proposal.problems.map(({ field, words }) => (
                  <span key={`${field} ${words}`}>
                    {fieldWords(field.split(".")[0] ?? "")}: {words}{" "}
                  </span>
                ))}
              </>
            }
          />
        </Entry>
      ) : null}
      {isOpen ? null : (
        <Entry side={STATE_WORDS[proposal.state]} isHeading>
          <p>
            By {proposal.decidedBy}
            {proposal.decidedOn ? <> on <time dateTime={proposal.decidedOn}>{dayWords(proposal.decidedOn)}</time></> : null}
            {proposal.editionNumberMade ? `; in force since edition ${proposal.editionNumberMade}` : ""}.
          </p>
          {proposal.answer ? <p className="measure">{proposal.answer}</p> : null}
        </Entry>
      )}
      {proposal.can.decide ? (
        <Entry side="Your answer" isHeading isStrong>
          <DecideForms proposalId={proposal.id} canApprove={proposal.problems.length === 0} />
        </Entry>
      ) : null}
      {proposal.can.withdraw ? (
        <Entry side="It is yours" isHeading>
          <WithdrawForm proposalId={proposal.id} />
        </Entry>
      ) : null}
    </Leaf>
  );
}
