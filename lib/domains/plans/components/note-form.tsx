"use client";

import { useActionState, type FormEvent } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { FormStatus } from "@/lib/ui/form-status";
import { keepTyped } from "@/lib/ui/keep-typed";
import { TextArea } from "@/lib/ui/text-input";
import { writeNote } from "../actions";
import type { DraftView } from "../draft/view";
import { isSameText } from "../together/rules";
import { noteWordCount, remarksOn, wordCountWords, type NotePart } from "@/lib/prescribe/wording";
import { Theirs } from "./theirs";
import { useBoxes } from "./use-boxes";

interface NoteFormProps {
  draft: Pick<DraftView, "planId" | "words" | "reader" | "writtenBy">;
  /** Why the focus matters, for the coach to say in plainer words. */
  focusWhy: string | null;
}

type FormPart = Exclude<NotePart, "cue">;
const LABELS: Readonly<Record<FormPart, string>> = { keptWell: "What was kept well", oneThing: "The one thing", why: "Why", forFamily: "For the family" };
const FORM_PARTS = Object.keys(LABELS) as FormPart[];

/** The family's part of the note. Words are counted, and remarked on beside their box, while they are written. */
export function NoteForm({ draft, focusWhy }: NoteFormProps) {
  const [state, send] = useActionState(writeNote, IDLE);
  const { keptWell, oneThing, why, forFamily, cue } = draft.words;
  const kept = { keptWell, oneThing, why, forFamily };
  const { boxes, was, overtaken, ...hand } = useBoxes<FormPart>(kept, state);
  const now = { keptWell: boxes.keptWell.text, oneThing: boxes.oneThing.text, why: boxes.why.text, forFamily: boxes.forFamily.text, cue };
  const remarks = remarksOn(now, draft.reader);
  const hints: Readonly<Record<FormPart, string | undefined>> = {
    keptWell: "Comes first, and is true.",
    oneThing: "In words a ten-year-old says back.",
    why: focusWhy ? `For you, from the library: ${focusWhy}` : undefined,
    forFamily: undefined,
  };
  const read = (event: FormEvent<HTMLFormElement>) => {
    const box = event.target as HTMLTextAreaElement;
    const part = FORM_PARTS.find((name) => name === box.name);
    if (part) hand.type(part, box.value);
  };
  const saidOf = (part: FormPart, isHard: boolean) => remarks.filter((remark) => remark.part === part && remark.isHard === isHard).map(({ words }) => words).join(" ");
  const refused = (part: FormPart) => (state.status === "refused" && isSameText(boxes[part].text, state.values[part] ?? "") ? state.fields[part] : undefined);
  return (
    <form
      className="form"
      action={send}
      onSubmit={(event) => {
        hand.markSent();
        keepTyped(send)(event);
      }}
      onInput={read}
      noValidate
    >
      <input type="hidden" name="planId" value={draft.planId} />
      <input type="hidden" name="was" value={was} />
      {FORM_PARTS.map((part) => (
        <div key={part} className="flow">
          <TextArea
            key={boxes[part].turn}
            name={part}
            label={LABELS[part]}
            rows={2}
            required={part === "keptWell"}
            mayBeEmpty={part === "forFamily"}
            hint={[saidOf(part, false), hints[part]].filter(Boolean).join(" ") || undefined}
            error={saidOf(part, true) || refused(part)}
            defaultValue={boxes[part].text}
          />
          {overtaken.includes(part) ? (
            <Theirs label={LABELS[part]} by={draft.writtenBy ?? "Another coach"} words={kept[part]} onTake={() => hand.takeTheirs(part)} onKeepMine={() => hand.keepMine(part)} />
          ) : null}
        </div>
      ))}
      <p className="hint" aria-live="polite">
        {wordCountWords(noteWordCount(now))} <span className="hush">{[...new Set(remarks.map(({ words }) => words))].join(" ")}</span>
      </p>
      <FormStatus state={state} />
      <SendButton>Keep the note</SendButton>
    </form>
  );
}
