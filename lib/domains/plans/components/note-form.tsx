"use client";

import { useActionState, useState, type FormEvent } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { keepTyped } from "@/lib/ui/keep-typed";
import { TextArea } from "@/lib/ui/text-input";
import { writeNote } from "../actions";
import { MOST_NOTE_WORDS, noteWordCount, remarksOn, type NoteReader, type NoteWords } from "../rules";
import type { DraftView } from "../draft/view";

interface NoteFormProps {
  draft: Pick<DraftView, "planId" | "words">;
  reader: Pick<NoteReader, "givenName" | "ageYears">;
  /** Why the focus matters, for the coach to say in plainer words. */
  focusWhy: string | null;
}

/** The family's part of the note. Words are counted, and remarked on, while they are written. */
export function NoteForm({ draft, reader, focusWhy }: NoteFormProps) {
  const [state, send] = useActionState(writeNote, IDLE);
  const [words, setWords] = useState<NoteWords>(draft.words);
  const now = { ...words, cue: draft.words.cue };
  const remarks = remarksOn(now, { ...reader, otherFaults: [] });
  const read = (event: FormEvent<HTMLFormElement>) => {
    const form = new FormData(event.currentTarget);
    const part = (name: string) => String(form.get(name) ?? "").trim();
    setWords({ keptWell: part("keptWell"), oneThing: part("oneThing"), why: part("why"), cue: draft.words.cue, forFamily: part("forFamily") });
  };
  return (
    <form className="form" action={send} onSubmit={keepTyped(send)} onInput={read} noValidate>
      <input type="hidden" name="planId" value={draft.planId} />
      <TextArea name="keptWell" label="What was kept well" rows={2} required hint="Comes first, and is true." {...fieldState(state, "keptWell", draft.words.keptWell)} />
      <TextArea name="oneThing" label="The one thing" rows={2} hint="In words a ten-year-old says back." {...fieldState(state, "oneThing", draft.words.oneThing)} />
      <TextArea name="why" label="Why" rows={2} hint={focusWhy ? `For you, from the library: ${focusWhy}` : undefined} {...fieldState(state, "why", draft.words.why)} />
      <TextArea name="forFamily" label="For the family" rows={2} mayBeEmpty {...fieldState(state, "forFamily", draft.words.forFamily)} />
      <p className="hint" aria-live="polite">
        {noteWordCount(now)} of {MOST_NOTE_WORDS} words, with the cue. {[...new Set(remarks.map((remark) => remark.words))].join(" ")}
      </p>
      <FormStatus state={state} />
      <SendButton>Keep the note</SendButton>
    </form>
  );
}
