"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea, TextInput } from "@/lib/ui/text-input";
import { proposeChange } from "../actions";
import type { FaultRecord } from "../schema";
import { CueFields } from "./cue-fields";

/** Field by field what a proposal may change of a fault. Its links and their strengths are not among them. */
export function FaultForm({ fault, baseEditionId, otherNames }: { fault: FaultRecord; baseEditionId: string; otherNames: readonly string[] }) {
  const [state, act] = useActionState(proposeChange, IDLE);
  const field = (name: string, initial?: string) => ({ name, ...fieldState(state, name, initial) });
  return (
    <form action={act} className="form">
      <FormStatus state={state} />
      <input type="hidden" name="baseEditionId" value={baseEditionId} />
      <input type="hidden" name="subject" value="fault" />
      <input type="hidden" name="recordId" value={fault.id} />
      <TextInput label="Name" maxLength={120} {...field("name", fault.name)} />
      <TextArea label="Also called" hint="One a line: what coaches say and type." rows={5} {...field("synonyms", fault.synonyms.join("\n"))} />
      <TextArea label="What it looks like from the side" rows={3} {...field("looksSide", fault.looks.side)} />
      <TextArea label="What it looks like from behind" rows={3} {...field("looksRear", fault.looks.rear)} />
      <TextArea label="What it looks like from the front" rows={3} {...field("looksFront", fault.looks.front)} />
      <TextArea label="Why it hurts the swing" rows={4} {...field("whyItHurts", fault.whyItHurts)} />
      {fault.lookAlikes.map(({ tell }, index) => (
        <TextArea key={otherNames[index] ?? index} label={`How to tell it from: ${otherNames[index] ?? ""}`} rows={2} {...field(`tell${index}`, tell)} />
      ))}
      <CueFields cues={fault.cues} state={state} />
      <TextArea label="As a player hears it" rows={2} {...field("playerWording", fault.playerWording)} />
      <TextArea label="Care" mayBeEmpty rows={2} {...field("safety", fault.safety ?? "")} />
      <TextArea label="Why" hint="At least three words. The head coach reads this first." required rows={3} maxLength={1000} {...field("reason")} />
      <div className="bar-line">
        <SubmitButton>Propose it</SubmitButton>
      </div>
    </form>
  );
}
