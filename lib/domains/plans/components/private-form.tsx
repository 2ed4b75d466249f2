"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { FormStatus } from "@/lib/ui/form-status";
import { keepTyped } from "@/lib/ui/keep-typed";
import { TextArea } from "@/lib/ui/text-input";
import { writePrivateNote } from "../actions";
import type { DraftView } from "../draft/view";
import { Theirs } from "./theirs";
import { useBoxes } from "./use-boxes";

const LABEL = "For staff only, never shown to the family";

/** What only coaches read. */
export function PrivateForm({ draft }: { draft: Pick<DraftView, "planId" | "privateWords" | "privateBy"> }) {
  const [state, send] = useActionState(writePrivateNote, IDLE);
  const { boxes, was, overtaken, type, markSent, takeTheirs, keepMine } = useBoxes<"words">({ words: draft.privateWords }, state);
  return (
    <form
      className="form"
      action={send}
      onSubmit={(event) => {
        markSent();
        keepTyped(send)(event);
      }}
      noValidate
    >
      <input type="hidden" name="planId" value={draft.planId} />
      <input type="hidden" name="was" value={was} />
      <TextArea
        key={boxes.words.turn}
        name="words"
        label={LABEL}
        rows={2}
        mayBeEmpty
        error={state.status === "refused" ? state.fields.words : undefined}
        defaultValue={boxes.words.text}
        onInput={(event) => type("words", event.currentTarget.value)}
      />
      {overtaken.length > 0 ? (
        <Theirs label="For staff" by={draft.privateBy ?? "Another coach"} words={draft.privateWords} onTake={() => takeTheirs("words")} onKeepMine={() => keepMine("words")} />
      ) : null}
      <FormStatus state={state} />
      <SendButton>Keep for staff</SendButton>
    </form>
  );
}
