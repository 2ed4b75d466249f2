"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import { sendMessage } from "../actions";

interface MessageFormProps {
  playerId: string;
  /** The number of the message that is written here: sent twice, it is kept once. */
  messageId: string;
  label: string;
  hint: string;
  /** The thread takes nothing now; what was typed and refused is still shown. */
  isClosed: boolean;
}

/** Writes one message, in plain text. What was typed stays whenever it could not be sent. */
export function MessageForm({ playerId, messageId, label, hint, isClosed }: MessageFormProps) {
  const say = useSay();
  const [state, send] = useActionState(sendMessage, IDLE);
  if (isClosed && state.status !== "refused") return null;
  return (
    <form action={send} className="form">
      <input type="hidden" name="playerId" value={playerId} />
      <input type="hidden" name="messageId" value={messageId} />
      <TextArea name="words" label={isClosed ? say("Your text, not sent") : label} hint={isClosed ? undefined : hint} rows={4} dir="auto" readOnly={isClosed} {...fieldState(state, "words")} />
      <FormStatus state={state} />
      {isClosed ? null : <SubmitButton>{say("Send")}</SubmitButton>}
    </form>
  );
}
