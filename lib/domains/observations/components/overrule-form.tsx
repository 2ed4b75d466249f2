"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { overruleFault } from "../actions";
import { words } from "./words";

/** Says no to a candidate; the reason stays on the record. */
export function OverruleForm({ given }: { given: Readonly<Record<string, string>> }) {
  const [state, send] = useActionState(overruleFault, IDLE);
  const refused = state.status === "refused" ? state : null;
  return (
    <form action={send} className="form">
      {Object.entries(given).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <TextArea
        name="reason"
        rows={2}
        label={words.candidate.reason}
        hint={words.candidate.reasonHint}
        error={refused?.fields.reason}
        defaultValue={refused?.values.reason}
        required
      />
      {refused && !refused.fields.reason ? <FormStatus state={refused} /> : null}
      <SubmitButton kind={undefined}>{words.candidate.keepReason}</SubmitButton>
    </form>
  );
}
