"use client";

import { useActionState, useEffect } from "react";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import type { PainPart } from "@/lib/domains/roster/rules";
import { Choice } from "@/lib/ui/choice";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import { STOP_ID } from "./words";

interface HurtsFormProps {
  action: (previous: ActionState, form: FormData) => Promise<ActionState>;
  playerId: string;
  parts: readonly { value: PainPart; label: string }[];
  /** Swings are paused already: the form is folded away. */
  isPausedAlready: boolean;
}

const LEVELS = Array.from({ length: 11 }, (_, level) => ({ value: String(level), label: String(level) }));

/** Where, how much, and if one likes in own words; one press. Afterwards the page above says what happens now. */
export function HurtsForm({ action, playerId, parts, isPausedAlready }: HurtsFormProps) {
  const say = useSay();
  const [state, send] = useActionState(action, IDLE);
  useEffect(() => {
    if (state.status === "done") document.getElementById(STOP_ID)?.focus();
  }, [state]);
  const form = (
    <form action={send} className="form">
      <input type="hidden" name="playerId" value={playerId} />
      <Choice name="part" label={say("Where does it hurt?")} options={parts} isRequired {...fieldState(state, "part")} />
      <Choice name="level" label={say("How much?")} hint={say("0 is not at all. 10 is the most.")} options={LEVELS} isRequired {...fieldState(state, "level")} />
      <TextArea name="words" label={say("In your own words")} mayBeEmpty rows={3} maxLength={500} hint={say("The people who look after you here can read this.")} {...fieldState(state, "words")} />
      {state.status === "refused" ? <FormStatus state={state} /> : null}
      <SubmitButton isBig isWide pendingText={say("Telling them …")}>
        {say("Tell them")}
      </SubmitButton>
    </form>
  );
  return isPausedAlready ? (
    <details>
      <summary>{say("Something else hurts too")}</summary>
      {form}
    </details>
  ) : (
    form
  );
}
