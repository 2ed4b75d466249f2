"use client";

import { useActionState, type ReactNode } from "react";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SendButton } from "./send-button";

/** An action as a form calls it. */
export type FormAction = (previous: ActionState, form: FormData) => Promise<ActionState>;

interface ActButtonProps {
  action: FormAction;
  /** What is sent with the press. */
  fields?: Readonly<Record<string, string>>;
  kind?: "main" | "plain";
  children: ReactNode;
  /** Read aloud instead of the words, where the same words stand several times. */
  label?: string;
}

/** One press that does one thing, and says below what became of it. */
export function ActButton({ action, fields = {}, kind, children, label }: ActButtonProps) {
  const [state, send] = useActionState(action, IDLE);
  return (
    <form action={send}>
      {Object.entries(fields).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <SendButton kind={kind} label={label}>
        {children}
      </SendButton>
      <FormStatus state={state} />
    </form>
  );
}
