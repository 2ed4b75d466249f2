"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import type { FormAction } from "@/lib/domains/identity/components/act-button";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { DateInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";

interface ClearHeadBlowProps {
  action: FormAction;
  playerId: string;
  pauseId: string;
}

/** The family's part after a blow to the head: the day on which a licensed clinician said yes. */
export function ClearHeadBlow({ action, playerId, pauseId }: ClearHeadBlowProps) {
  const say = useSay();
  const [state, send] = useActionState(action, IDLE);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <input type="hidden" name="pauseId" value={pauseId} />
      <DateInput name="clinicianSaidOn" label={say("A licensed clinician said on this day that swings may begin again")} {...fieldState(state, "clinicianSaidOn", "")} />
      <FormStatus state={state} />
      <SendButton>{say("Swings may begin again, for the family")}</SendButton>
    </form>
  );
}
