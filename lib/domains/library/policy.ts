import { ability, type Ability, type Subject } from "@/lib/access/ability";
import type { Id } from "@/lib/core/ids";

/** A change that somebody proposed. */
export interface ProposalSubject extends Subject {
  readonly id: Id;
  readonly proposedById: Id;
  readonly isOpen: boolean;
}

const isCoach = (role: string) => role === "coach" || role === "head-coach";
const staffReads = ability<Subject>()("library.read", (person) => isCoach(person.role) || person.role === "admin");

/**
 * Reads what is in force. Staff do; players and families never: they get the words of a note or a plan, not the library.
 * The library holds nothing about anybody, so the worker reads it in any job.
 */
export const readLibraryInForce: Ability<Subject, "library.read"> = {
  name: staffReads.name,
  allows: (actor, subject) => actor.kind === "system" || staffReads.allows(actor, subject),
};

export const proposeToLibrary = ability<Subject>()("library.propose", (person) => isCoach(person.role));
/** Proposals are seen by those who may write one: a draft is no knowledge yet. */
export const seeProposals = ability<Subject>()("library.see-proposals", (person) => isCoach(person.role));
export const seeProposal = ability<ProposalSubject>()("proposal.see", (person) => isCoach(person.role));
export const decideProposal = ability<ProposalSubject>()("proposal.decide", (person) => person.role === "head-coach");
export const withdrawOwnProposal = ability<ProposalSubject>()(
  "proposal.withdraw",
  (person, proposal) => isCoach(person.role) && proposal.proposedById === person.userId,
);
