"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { Cue } from "@/lib/ui/cue";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { TextInput } from "@/lib/ui/text-input";
import { chooseCue } from "../actions";
import type { DraftView } from "../draft/view";

const SHOWN = 6;

/** One cue: the one this player had last stands first; own words are as good. */
export function CueForm({ draft }: { draft: Pick<DraftView, "planId" | "cue" | "cues"> }) {
  const [state, send] = useActionState(chooseCue, IDLE);
  const shown = draft.cues.filter(({ text }, index) => index < SHOWN || text === draft.cue);
  const isOwn = draft.cue !== "" && !draft.cues.some(({ text }) => text === draft.cue);
  return (
    <form className="form" action={send} noValidate key={draft.cue}>
      <input type="hidden" name="planId" value={draft.planId} />
      <fieldset className="field">
        <legend className="hush">Choose the cue</legend>
        {shown.map(({ text, from }) => (
          <label key={text} className="tick">
            <input type="radio" name="cue" value={text} defaultChecked={text === draft.cue} />
            <span>
              <Cue text={text} /> {from ? <span className="note">{from}</span> : null}
            </span>
          </label>
        ))}
      </fieldset>
      <TextInput name="ownCue" label="Or in your own words" mayBeEmpty autoComplete="off" maxLength={140} {...fieldState(state, "ownCue", isOwn ? draft.cue : "")} />
      <FormStatus state={state} />
      <SendButton>Keep the cue</SendButton>
    </form>
  );
}
