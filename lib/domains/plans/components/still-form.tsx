"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { FormStatus } from "@/lib/ui/form-status";
import { chooseStill } from "../actions";
import type { DraftView } from "../draft/view";

/** Which marked frame goes with the note, or none. */
export function StillForm({ draft }: { draft: Pick<DraftView, "planId" | "still" | "stills"> }) {
  const [state, send] = useActionState(chooseStill, IDLE);
  return (
    <form className="form" action={send} key={draft.still}>
      <input type="hidden" name="planId" value={draft.planId} />
      <fieldset className="field">
        <legend className="hush">Choose the still</legend>
        {draft.stills.map(({ value, url, words }) => (
          <label key={value} className="tick">
            <input type="radio" name="still" value={value} defaultChecked={value === draft.still} />
            <span className="bar-line">
              <img src={url} alt="" width={120} style={{ height: "auto" }} loading="lazy" />
              {words}
            </span>
          </label>
        ))}
        <label className="tick">
          <input type="radio" name="still" value="" defaultChecked={draft.still === ""} />
          <span>No still</span>
        </label>
      </fieldset>
      <FormStatus state={state} />
      <SendButton>Keep the still</SendButton>
    </form>
  );
}
