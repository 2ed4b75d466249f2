"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { WeekdayRows } from "@/lib/domains/roster/components/weekday-rows";
import { FormStatus } from "@/lib/ui/form-status";
import { setWeekdays } from "../actions";
import type { DraftDrill } from "../draft/view";

/** On which days of the week a drill is done; none ticked = any day of the plan. */
export function WeekdaysForm({ planId, drill }: { planId: string; drill: DraftDrill }) {
  const [state, send] = useActionState(setWeekdays, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="planId" value={planId} />
      <input type="hidden" name="drillId" value={drill.drillId} />
      <WeekdayRows name="weekdays[]" legend="On these days" hint="None ticked: on any day of the plan." chosen={drill.weekdays} />
      <FormStatus state={state} />
      <SendButton label={`Keep the days of ${drill.name}`}>Keep</SendButton>
    </form>
  );
}
