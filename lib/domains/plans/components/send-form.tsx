"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { sendNote } from "../actions";
import { useFreshWhenOvertaken } from "./use-boxes";

interface SendFormProps {
  planId: string;
  /** What the preview shows: nothing else is sent. */
  seen: string;
  givenName: string;
  receivers: readonly string[];
  /** What stands in the way, first things first. */
  notYet: readonly string[];
}

/** Sends the note as it is shown. What is not ready yet is said before it is pressed. */
export function SendForm({ planId, seen, givenName, receivers, notYet }: SendFormProps) {
  const [state, send] = useActionState(sendNote, IDLE);
  useFreshWhenOvertaken(state);
  const text = receivers.length > 1 ? `Send to ${receivers.length === 2 ? "both" : `all ${receivers.length}`}` : "Send";
  return (
    <form action={send}>
      <input type="hidden" name="planId" value={planId} />
      <input type="hidden" name="seen" value={seen} />
      <p className="note">
        {receivers.length > 0 ? `Goes to ${receivers.join(" and to ")}${receivers.length > 1 ? " together" : ""}. Nothing goes to a child alone.` : `Nobody would get this yet: ${givenName} has no guardian and no sign-in here.`}
      </p>
      {notYet.length > 0 ? (
        <div className="trouble">
          <p>
            <b>Not ready yet.</b> Your draft is kept.
          </p>
          <ul className="leftout">
            {notYet.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <FormStatus state={state} />
      {notYet.length === 0 ? <SubmitButton isBig>{text}</SubmitButton> : null}
    </form>
  );
}
