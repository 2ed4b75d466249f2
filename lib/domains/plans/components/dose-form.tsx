"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { TextInput } from "@/lib/ui/text-input";
import { setDose } from "../actions";
import type { DraftDrill } from "../draft/view";

/** How often and how long a drill is done; swings are counted from it. */
export function DoseForm({ planId, drill }: { planId: string; drill: DraftDrill }) {
  const [state, send] = useActionState(setDose, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="planId" value={planId} />
      <input type="hidden" name="drillId" value={drill.drillId} />
      <TextInput name="timesPerDay" label="Times a day" inputMode="numeric" isShort autoComplete="off" {...fieldState(state, "timesPerDay", String(drill.timesPerDay))} />
      <TextInput name="minutesPerDay" label="Minutes" inputMode="numeric" isShort autoComplete="off" {...fieldState(state, "minutesPerDay", String(drill.minutesPerDay))} />
      <FormStatus state={state} />
      <SendButton label={`Keep the dose of ${drill.name}`}>Keep</SendButton>
    </form>
  );
}
