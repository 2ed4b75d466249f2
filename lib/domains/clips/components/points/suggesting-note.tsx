"use client";

import { useState, useTransition } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { lookAgain } from "../../suggested/actions";
import type { NotSuggested } from "../../suggested/schema";
import type { Suggesting } from "../../suggested/view";

/** Why nothing is suggested, in words, and what would help. All goes on by hand in every case. */
const WHY: Readonly<Record<NotSuggested, string>> = {
  off: "Suggesting points is switched off here.",
  "no-model": "The model that suggests points is not installed.",
  "no-contact": "Points are suggested once contact is set: it says which frames count.",
  "time-unknown": "Nobody has said how fast this was filmed, so it is not known which frames count.",
  "no-copy": "The copy for stepping is not there.",
  "nobody-found": "The model found no hitter on this clip.",
  failed: "The model could not look at this clip.",
};
const BY_HAND = "Every point can be placed by hand.";
/** What looking again may change. */
const WORTH_AGAIN: readonly NotSuggested[] = ["no-model", "no-copy", "nobody-found", "failed"];

const LOST: ActionState = { status: "refused", message: "The line was lost. Nothing was changed. Please try again.", fields: {}, values: {} };

/** Whether points are suggested on this clip, why not, and a look from the beginning on demand. */
export function SuggestingNote({ clipId, suggesting }: { readonly clipId: string; readonly suggesting: Suggesting }) {
  const [isBusy, start] = useTransition();
  const [told, setTold] = useState<ActionState | null>(null);
  const canLook = suggesting.is === "done" || (suggesting.is === "not" && WORTH_AGAIN.includes(suggesting.why));
  return (
    <section aria-label="Suggested points">
      <p className="note">{sentence(suggesting)}</p>
      {canLook ? <Button kind="plain" disabled={isBusy} onClick={() => start(async () => setTold(await lookAgain({ clipId }).catch(() => LOST)))}>Look again</Button> : null}
      <p className="note" role="status">{told?.status === "done" ? told.message : ""}</p>
      <div role="alert">{told?.status === "refused" ? <p className="trouble">{told.message}</p> : null}</div>
    </section>
  );
}

function sentence(suggesting: Suggesting): string {
  if (suggesting.is === "waiting") return `No points are suggested yet. The model looks a little after contact is known; nothing waits for it. ${BY_HAND}`;
  if (suggesting.is === "not") return `${WHY[suggesting.why]} ${BY_HAND}`;
  const { found, frames, model, version } = suggesting;
  return `A model suggested points on ${found} of the ${frames} frames it looked at (${model} ${version}). It can be wrong: a suggestion counts only once you take it or move it.`;
}
