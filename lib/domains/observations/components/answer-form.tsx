"use client";

import { useActionState, type ReactNode } from "react";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";

interface AnswerFormProps {
  action: (previous: ActionState, form: FormData) => Promise<ActionState>;
  /** What the form knows without being asked. */
  given: Readonly<Record<string, string | number | undefined>>;
  children: ReactNode;
  className?: string;
}

/** A form of few presses: it works without script, says why when it is refused, and is read aloud when it is kept. */
export function AnswerForm({ action, given, children, className }: AnswerFormProps) {
  const [state, send] = useActionState(action, IDLE);
  return (
    <form action={send} className={className}>
      {Object.entries(given).map(([name, value]) => (value === undefined ? null : <input key={name} type="hidden" name={name} value={value} />))}
      {children}
      {state.status === "refused" ? <FormStatus state={state} /> : <p className="hush" role="status">{state.status === "done" ? state.message : ""}</p>}
    </form>
  );
}
