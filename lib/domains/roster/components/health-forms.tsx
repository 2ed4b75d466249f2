"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { SendButton } from "@/lib/domains/identity/components/send-button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { recordComplaint, reportPain } from "../actions";
import { BODY_PARTS, PAIN_PARTS } from "../rules";
import { partWords } from "./words";

/** Keeps that a part is to be spared; drills that load it are left out. */
export function ComplaintForm({ playerId }: { playerId: string }) {
  const [state, send] = useActionState(recordComplaint, IDLE);
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="part" label="Part to spare" options={BODY_PARTS.map((part) => ({ value: part, label: partWords(part) }))} empty {...fieldState(state, "part")} />
      <FormStatus state={state} />
      <SendButton>Keep</SendButton>
    </form>
  );
}

/** It hurts: where, how much, in own words. Sending it stops the swings. */
export function PainForm({ playerId, isBig = false }: { playerId: string; isBig?: boolean }) {
  const [state, send] = useActionState(reportPain, IDLE);
  if (state.status === "done") {
    return (
      <div className="trouble" role="alert">
        <h2 className="as-h3">Stop swinging now.</h2>
        <p>Tell an adult who is with you. Nobody is cross. Your coach has been told, and swings wait until a coach and your family say go.</p>
        <p>If it is strong, or does not go away, see a doctor or another licensed clinician first.</p>
      </div>
    );
  }
  return (
    <form className="form" action={send}>
      <input type="hidden" name="playerId" value={playerId} />
      <Select name="part" label="Where does it hurt?" options={PAIN_PARTS.map((part) => ({ value: part, label: partWords(part) }))} empty {...fieldState(state, "part")} />
      <Select
        name="level"
        label="How much?"
        options={Array.from({ length: 11 }, (_, level) => ({ value: String(level), label: level === 0 ? "0, not now" : level === 10 ? "10, the most there is" : String(level) }))}
        {...fieldState(state, "level", "3")}
      />
      <TextArea name="words" label="In your own words" mayBeEmpty rows={2} maxLength={500} {...fieldState(state, "words")} />
      <FormStatus state={state} />
      <SubmitButton isBig={isBig} isWide={isBig}>
        It hurts: stop
      </SubmitButton>
    </form>
  );
}
