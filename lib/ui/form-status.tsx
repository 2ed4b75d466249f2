"use client";

import { useEffect, useRef } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { useSay } from "./words/use-say";

/** What the form can be moved to when it was refused: its first wrong control, else the sentence itself. */
function firstWrongControl(form: HTMLFormElement | null | undefined): HTMLElement | null {
  const wrong = form?.querySelector<HTMLElement>('[aria-invalid="true"]');
  if (!wrong) return null;
  return wrong.matches("input, select, textarea") ? wrong : (wrong.querySelector<HTMLElement>("input, select, textarea") ?? wrong);
}

/**
 * What became of the form. Stands inside it, first or just above the button. When it was refused, the first wrong
 * field is focused; when it was kept, the sentence is read aloud.
 */
export function FormStatus({ state }: { state: ActionState }) {
  const say = useSay();
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.status !== "refused") return;
    (firstWrongControl(ref.current?.closest("form")) ?? ref.current)?.focus();
  }, [state]);

  return (
    <div ref={ref} className="form-status" tabIndex={-1} role={state.status === "refused" ? "alert" : "status"}>
      {state.status === "refused" ? (
        <p className="trouble">
          <b>{say("Not kept yet:")}</b> {state.message}
        </p>
      ) : null}
      {state.status === "done" ? <p className="kept-line">{state.message ?? say("Kept.")}</p> : null}
    </div>
  );
}
