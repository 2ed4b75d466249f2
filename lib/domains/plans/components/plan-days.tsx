"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import { setDays } from "../actions";
import type { DraftView } from "../draft/view";

/** Minutes, days and the next check of this plan. */
export function PlanDays({ draft }: { draft: Pick<DraftView, "planId" | "minutesPerDay" | "daysPerWeek" | "nextCheckOn"> }) {
  const [state, send] = useActionState(setDays, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="planId" value={draft.planId} />
      <TextInput name="minutesPerDay" label="Minutes a day" inputMode="numeric" isShort autoComplete="off" {...fieldState(state, "minutesPerDay", String(draft.minutesPerDay))} />
      <TextInput name="daysPerWeek" label="Days a week" inputMode="numeric" isShort autoComplete="off" hint="Five at most: two days are free." {...fieldState(state, "daysPerWeek", String(draft.daysPerWeek))} />
      <DateInput name="nextCheckOn" label="Next check" {...fieldState(state, "nextCheckOn", draft.nextCheckOn)} />
      <FormStatus state={state} />
      <SendButton>Keep</SendButton>
    </form>
  );
}
