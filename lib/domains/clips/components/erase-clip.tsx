"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import type { Id } from "@/lib/core/ids";
import { CheckRow } from "@/lib/ui/check-row";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { eraseClip } from "../erasing/actions";
import { addWords as words } from "./add-words";

/** Erases a clip with everything that is kept of it, once a person has said yes to just that. */
export function EraseClip({ clipId }: { readonly clipId: Id }) {
  const [state, act] = useActionState(eraseClip, IDLE);
  return (
    <details className="fold">
      <summary>{words.erase}</summary>
      <form className="form" action={act}>
        <input type="hidden" name="clipId" value={clipId} />
        <p>{words.whatErasing}</p>
        <CheckRow name="isSure" label={words.sureToErase} required />
        <FormStatus state={state} />
        <SubmitButton kind={undefined}>{words.eraseNow}</SubmitButton>
      </form>
    </details>
  );
}
