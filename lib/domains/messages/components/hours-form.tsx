"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select, type Option } from "@/lib/ui/select";
import { setHoursOfLocation } from "../hours/actions";

interface HoursFormProps {
  locationId: string;
  name: string;
  opensHour: number;
  closesHour: number;
  opens: readonly Option[];
  closes: readonly Option[];
}

/** From when to when messages go out at one location. */
export function HoursForm({ locationId, name, opensHour, closesHour, opens, closes }: HoursFormProps) {
  const [state, send] = useActionState(setHoursOfLocation, IDLE);
  return (
    <form className="form" action={send} aria-label={`Hours for messages at ${name}`}>
      <input type="hidden" name="locationId" value={locationId} />
      <div className="field-pair">
        <Select name="opensHour" label="Messages go out from" options={opens} {...fieldState(state, "opensHour", String(opensHour))} />
        <Select name="closesHour" label="until" options={closes} {...fieldState(state, "closesHour", String(closesHour))} />
      </div>
      <FormStatus state={state} />
      <SendButton>Keep these hours</SendButton>
    </form>
  );
}
