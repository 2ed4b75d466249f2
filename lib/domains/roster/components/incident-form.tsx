"use client";

import { useActionState, useState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Choice } from "@/lib/ui/choice";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { DateInput, TextArea } from "@/lib/ui/text-input";
import { noteIncident } from "../incidents/actions";
import { INCIDENT_KINDS, INCIDENT_WORDS, NOTED_DAYS_BACK } from "../incidents/rules";
import { PAIN_PARTS } from "../rules";
import { HeadBlowCaution } from "./head-blow";
import { partWords } from "./words";

const KIND_OPTIONS = INCIDENT_KINDS.map((kind) => ({ value: kind, label: INCIDENT_WORDS[kind] }));

/** An incident note: what happened, where, what was done. Keeping it stops swings and tells family and coaches. */
export function IncidentForm({ playerId, today }: { playerId: string; today: string }) {
  const [state, send] = useActionState(noteIncident, IDLE);
  const [kind, setKind] = useState("");
  const isHeadBlow = kind === "head-blow";
  if (state.status === "done") return <FormStatus state={state} />;
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="playerId" value={playerId} />
      <Choice name="kind" label="What was it?" options={KIND_OPTIONS} value={kind} onChange={setKind} {...fieldState(state, "kind")} />
      {isHeadBlow ? (
        <>
          <HeadBlowCaution />
          <input type="hidden" name="part" value="head" />
        </>
      ) : (
        <Select name="part" label="Where" options={PAIN_PARTS.map((part) => ({ value: part, label: partWords(part) }))} empty {...fieldState(state, "part")} />
      )}
      <DateInput name="happenedOn" label="When" hint={`Today or within the last ${NOTED_DAYS_BACK} days.`} {...fieldState(state, "happenedOn", today)} />
      <TextArea name="words" label="What happened" rows={3} maxLength={500} hint="What was seen and heard, no guess at what it is. The family and the office read this." {...fieldState(state, "words")} />
      <TextArea name="firstAid" label="What was done at once" mayBeEmpty rows={2} maxLength={500} {...fieldState(state, "firstAid")} />
      <FormStatus state={state} />
      <SubmitButton pendingText="Telling them …">Keep it and pause swings</SubmitButton>
    </form>
  );
}
