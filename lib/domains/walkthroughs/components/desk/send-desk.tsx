"use client";
import { useActionState, useId, useState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { longDay } from "@/lib/domains/plans/view";
import { Button } from "@/lib/ui/button";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { removeWalkthrough, sendWalkthrough, takeBackWalkthrough } from "../../actions";
import type { WalkthroughForCoach } from "../../view";

/** Sending, taking back, removing. */
export function SendDesk({ view }: { readonly view: WalkthroughForCoach }) {
  const id = useId();
  const [sendState, send] = useActionState(sendWalkthrough, IDLE);
  const [backState, takeBack] = useActionState(takeBackWalkthrough, IDLE);
  const [removeState, remove] = useActionState(removeWalkthrough, IDLE);
  const [isSure, setIsSure] = useState(false);
  const models = Object.values(view.clips).some(({ isModel }) => isModel);
  const awaited = view.takes.some(({ voiceUrl, voiceMs }) => voiceUrl === null && voiceMs !== null);
  const number = <input type="hidden" name="walkthroughId" value={view.id} />;
  return (
    <section aria-label="Send it">
      <h2>{view.sentOn ? "Sent" : "Send it"}</h2>
      {awaited ? <p className="note">A voice is not heard: no consent to film is in force.</p> : null}
      {models ? <p className="note">The family sees the place of a model empty: models are shown to coaches only.</p> : null}
      {view.sentOn ? (
        <form action={takeBack}>
          <FormStatus state={backState.status === "idle" ? sendState : backState} />
          {number}
          <p>The player and the guardians have it since {longDay(view.sentOn)}{view.noteId ? ", with a note" : ""}. What you change is changed for them.</p>
          <Button type="submit">Take it back</Button>
        </form>
      ) : (
        <form action={send}>
          <FormStatus state={backState.status === "idle" ? sendState : backState} />
          {number}
          <div className="field">
            <label htmlFor={`${id}-note`}>With which note</label>
            <select id={`${id}-note`} name="noteId" defaultValue={view.notes[0]?.id ?? ""}>
              {view.notes.map((note) => <option key={note.id} value={note.id}>{note.words}</option>)}
              <option value="">With none, by itself</option>
            </select>
            <p className="hint">It goes to {view.givenName} and every guardian, never to one of them alone.</p>
          </div>
          <SubmitButton>Send to the family</SubmitButton>
        </form>
      )}
      <form action={remove} className="opens">
        <FormStatus state={removeState} />
        {number}
        {isSure ? (
          <div className="bar-line" role="group" aria-label="Remove for good">
            <p>Voice, words and list are removed for good; the films stay.</p>
            <Button kind="main" onClick={() => setIsSure(false)}>Keep it</Button>
            <Button type="submit">Remove it for good</Button>
          </div>
        ) : (
          <Button kind="plain" onClick={() => setIsSure(true)}>Remove the walkthrough</Button>
        )}
      </form>
    </section>
  );
}
