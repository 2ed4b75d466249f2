"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { suggestWeek } from "../actions";
import type { DraftView } from "../draft/view";

const ORDER_WORDS = { blocked: "New to it: one drill after the other", mixed: "Knows it: drills mixed" } as const;

/** Fills the plan with the best week that fits. What stands in it is replaced, and the button says so. */
export function SuggestForm({ draft }: { draft: Pick<DraftView, "planId" | "practiceOrder" | "seen" | "drills"> }) {
  const [state, send] = useActionState(suggestWeek, IDLE);
  const isEmpty = draft.drills.length === 0;
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="planId" value={draft.planId} />
      <input type="hidden" name="seen" value={draft.seen} />
      <Select name="practiceOrder" label="Practice" options={[...Object.entries(ORDER_WORDS)].map(([value, label]) => ({ value, label }))} {...fieldState(state, "practiceOrder", draft.practiceOrder)} />
      <FormStatus state={state} />
      <SendButton>{isEmpty ? "Suggest a plan" : "Suggest anew: replaces these drills"}</SendButton>
    </form>
  );
}
