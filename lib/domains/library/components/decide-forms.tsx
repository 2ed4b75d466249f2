"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { approveProposal, declineProposal, withdrawProposal } from "../actions";

/** The head coach's two answers. Declining says why. */
export function DecideForms({ proposalId, canApprove }: { proposalId: string; canApprove: boolean }) {
  const [approved, approve] = useActionState(approveProposal, IDLE);
  const [declined, decline] = useActionState(declineProposal, IDLE);
  return (
    <div className="flow-wide">
      {canApprove ? (
        <form action={approve} className="form">
          <FormStatus state={approved} />
          <input type="hidden" name="proposalId" value={proposalId} />
          <p>Everybody works with it from the next page on. What was sent to families keeps its words.</p>
          <div className="bar-line">
            <SubmitButton>Approve as a new edition</SubmitButton>
          </div>
        </form>
      ) : null}
      <form action={decline} className="form">
        <FormStatus state={declined} />
        <input type="hidden" name="proposalId" value={proposalId} />
        <TextArea label="Why not" hint="The coach who proposed it reads this." name="words" rows={3} maxLength={1000} {...fieldState(declined, "words")} />
        <div className="bar-line">
          <SubmitButton kind="plain">Decline</SubmitButton>
        </div>
      </form>
    </div>
  );
}

/** Takes an own proposal back. */
export function WithdrawForm({ proposalId }: { proposalId: string }) {
  const [state, act] = useActionState(withdrawProposal, IDLE);
  return (
    <form action={act} className="form">
      <FormStatus state={state} />
      <input type="hidden" name="proposalId" value={proposalId} />
      <div className="bar-line">
        <SubmitButton kind="plain">Take it back</SubmitButton>
      </div>
    </form>
  );
}
