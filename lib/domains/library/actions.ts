"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may, mayInAcademy } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import * as policy from "./policy";
import * as forms from "./schema";
import { findProposalSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const proposalOf = <Input extends { proposalId: Id }>(input: Input, db: Database, actor: Person) => findProposalSubject(db, actor.academyId, input.proposalId);

export const proposeChange = defineAction({
  name: "library.propose-change",
  input: forms.proposeChangeForm,
  policy: mayInAcademy<In<typeof forms.proposeChangeForm>, "library.propose">(policy.proposeToLibrary),
  run: async ({ actor, input, granted, tx }) => {
    const proposalId = await commands.proposeChange(tx, granted, actor.userId, input);
    return { data: { proposalId }, redirectTo: `/library/proposals/${proposalId}` };
  },
});

export const proposeNewDrill = defineAction({
  name: "library.propose-new-drill",
  input: forms.proposeNewDrillForm,
  policy: mayInAcademy<In<typeof forms.proposeNewDrillForm>, "library.propose">(policy.proposeToLibrary),
  run: async ({ actor, input, granted, tx }) => {
    const proposalId = await commands.proposeNewDrill(tx, granted, actor.userId, input);
    return { data: { proposalId }, redirectTo: `/library/proposals/${proposalId}` };
  },
});

export const withdrawProposal = defineAction({
  name: "library.withdraw-proposal",
  input: forms.proposalIdForm,
  policy: may(policy.withdrawOwnProposal, proposalOf<In<typeof forms.proposalIdForm>>),
  run: async ({ actor, granted, tx }) => {
    await commands.withdrawProposal(tx, granted, actor.userId);
    return { message: "Taken back. The library is as it was." };
  },
});

export const approveProposal = defineAction({
  name: "library.approve-proposal",
  input: forms.proposalIdForm,
  policy: may(policy.decideProposal, proposalOf<In<typeof forms.proposalIdForm>>),
  run: async ({ actor, granted, tx }) => {
    const edition = await commands.approveProposal(tx, granted, actor.userId);
    return { message: `Approved. Edition ${edition.number} is in force now.`, data: { editionId: edition.id } };
  },
});

export const declineProposal = defineAction({
  name: "library.decline-proposal",
  input: forms.declineProposalForm,
  policy: may(policy.decideProposal, proposalOf<In<typeof forms.declineProposalForm>>),
  run: async ({ actor, input, granted, tx }) => {
    await commands.declineProposal(tx, granted, actor.userId, input.words);
    return { message: "Declined. The library is as it was, and your words are kept with the proposal." };
  },
});
