"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { keepTyped } from "@/lib/ui/keep-typed";
import { TextArea } from "@/lib/ui/text-input";
import { writePrivateNote } from "../actions";
import type { DraftView } from "../draft/view";

/** What only coaches read. */
export function PrivateForm({ draft }: { draft: Pick<DraftView, "planId" | "privateWords"> }) {
  const [state, send] = useActionState(writePrivateNote, IDLE);
  return (
    <form className="form" action={send} onSubmit={keepTyped(send)} noValidate>
      <input type="hidden" name="planId" value={draft.planId} />
      <TextArea name="words" label="For staff only, never shown to the family" rows={2} mayBeEmpty {...fieldState(state, "words", draft.privateWords)} />
      <FormStatus state={state} />
      <SendButton>Keep for staff</SendButton>
    </form>
  );
}
