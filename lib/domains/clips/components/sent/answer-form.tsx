"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import type { Id } from "@/lib/core/ids";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { answerSent } from "../../sent/actions";
import { MOST_ANSWER } from "../../sent/rules";
import { sentWords } from "./sent-words";

const words = sentWords.coach;

interface AnswerFormProps {
  readonly sentId: Id;
  readonly clipId: Id;
  readonly frameIndex: number;
  readonly answer: string | null;
  /** The homework of the plans in force. */
  readonly drills: readonly { readonly id: Id; readonly name: string }[];
}

/** Words to go with a frame. */
export function AnswerForm({ sentId, clipId, frameIndex, answer, drills }: AnswerFormProps) {
  const [state, send] = useActionState(answerSent, IDLE);
  return (
    <form action={send} className="form">
      <input type="hidden" name="sentId" value={sentId} />
      <input type="hidden" name="clipId" value={clipId} />
      <input type="hidden" name="frameIndex" value={frameIndex} />
      <TextArea name="words" label={words.words} hint={words.wordsHint} rows={4} maxLength={MOST_ANSWER} {...fieldState(state, "words", answer ?? "")} />
      {drills.length > 0 ? (
        <Select
          name="planDrillId" label={words.drill} hint={words.drillHint}
          options={[{ value: "", label: words.noDrill }, ...drills.map(({ id, name }) => ({ value: id, label: name }))]} {...fieldState(state, "planDrillId", "")}
        />
      ) : null}
      <FormStatus state={state} />
      <SubmitButton pendingText="Sending …">{words.send}</SubmitButton>
    </form>
  );
}
