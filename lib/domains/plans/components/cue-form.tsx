"use client";

import { useActionState, useState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { Cue } from "@/lib/ui/cue";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { TextInput } from "@/lib/ui/text-input";
import { chooseCue } from "../actions";
import type { DraftView } from "../draft/view";
import { remarksOnPart, type NoteReader } from "@/lib/prescribe/wording";
import { useFreshWhenOvertaken } from "./use-boxes";

const SHOWN = 6;

/** One cue: the one this player had last stands first; own words are as good. */
export function CueForm({ draft }: { draft: Pick<DraftView, "planId" | "cue" | "cues" | "reader"> }) {
  const [state, send] = useActionState(chooseCue, IDLE);
  useFreshWhenOvertaken(state);
  const shown = draft.cues.filter(({ text }, index) => index < SHOWN || text === draft.cue);
  const isOwn = draft.cue !== "" && !draft.cues.some(({ text }) => text === draft.cue);
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="planId" value={draft.planId} />
      <input type="hidden" name="was" value={draft.cue} />
      <fieldset className="field" key={draft.cue}>
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
      <OwnCue key={`own ${draft.cue}`} reader={draft.reader} {...fieldState(state, "ownCue", isOwn ? draft.cue : "")} />
      <FormStatus state={state} />
      <SendButton>Keep the cue</SendButton>
    </form>
  );
}

/** Own words for the cue, looked at while they are written. */
function OwnCue({ reader, error, defaultValue = "" }: { reader: NoteReader; error?: string; defaultValue?: string }) {
  const [words, setWords] = useState<string | null>(null);
  const remarks = remarksOnPart("cue", words ?? "", reader);
  const said = (isHard: boolean) => remarks.filter((remark) => remark.isHard === isHard).map((remark) => remark.words).join(" ");
  return (
    <TextInput
      name="ownCue"
      label="Or in your own words"
      mayBeEmpty
      autoComplete="off"
      maxLength={140}
      hint={said(false) || undefined}
      error={words === null ? error : said(true) || undefined}
      defaultValue={defaultValue}
      onInput={(event) => setWords(event.currentTarget.value)}
    />
  );
}
