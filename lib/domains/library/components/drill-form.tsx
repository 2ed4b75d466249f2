"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { CheckRow } from "@/lib/ui/check-row";
import { checkState, fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea, TextInput } from "@/lib/ui/text-input";
import { proposeChange, proposeNewDrill } from "../actions";
import type { DrillRecord } from "../schema";
import { CueFields } from "./cue-fields";

const PARTS: readonly DrillRecord["avoidParts"][number][] = ["knee", "hip", "groin", "back", "side", "shoulder", "elbow", "wrist", "hand"];
const lines = (entries: readonly string[]) => entries.join("\n");

interface DrillFormProps {
  drill: DrillRecord;
  baseEditionId: string;
  /** A drill of its own that begins as this one, instead of a change of it. */
  isNew: boolean;
}

/** Field by field what a proposal may change of a drill. Who must be there, gear, helmet and levels are not among them. */
export function DrillForm({ drill, baseEditionId, isNew }: DrillFormProps) {
  const [state, act] = useActionState(isNew ? proposeNewDrill : proposeChange, IDLE);
  const field = (name: string, initial?: string | number) => ({ name, ...fieldState(state, name, initial === undefined ? undefined : String(initial)) });
  const dose = drill.dose;
  return (
    <form action={act} className="form">
      <FormStatus state={state} />
      <input type="hidden" name="baseEditionId" value={baseEditionId} />
      {isNew ? (
        <input type="hidden" name="likeId" value={drill.id} />
      ) : (
        <>
          <input type="hidden" name="subject" value="drill" />
          <input type="hidden" name="recordId" value={drill.id} />
        </>
      )}
      <TextInput label="Name" maxLength={120} {...field("name", isNew ? "" : drill.name)} />
      <TextArea label="What it is for" rows={2} {...field("purpose", drill.purpose)} />
      <TextArea label="Steps" hint="One a line, three to six." rows={6} {...field("steps", lines(drill.steps))} />
      <CueFields cues={drill.cues} state={state} />
      <TextArea label="What one takes" hint="One thing a line. The list of gear that is checked at home stays as it is." rows={3} {...field("equipment", lines(drill.equipment))} />
      <TextInput label="Room" {...field("space", drill.space)} />
      <fieldset className="field">
        <legend>How much</legend>
        <div className="field-pair" style={{ width: "100%" }}>
          <TextInput label="Minutes" type="number" min={0.5} max={60} step="any" isShort {...field("minutes", dose.minutes)} />
          <TextInput label="Sets" type="number" min={1} max={10} isShort {...field("sets", dose.sets)} />
          <TextInput label="Times a set" type="number" min={1} max={50} isShort {...field("reps", dose.reps)} />
          <TextInput label="Swings that count" type="number" min={0} max={100} isShort {...field("fullSwings", dose.fullSwings)} />
          <TextInput label="Effort, percent" type="number" min={0} max={100} isShort {...field("effortPercent", dose.effortPercent)} />
        </div>
      </fieldset>
      <TextArea label="Care" hint="One sentence a line: said at the act." rows={4} {...field("safety", lines(drill.safety))} />
      <TextInput label="Youngest age" type="number" min={8} max={99} isShort {...field("minAge", drill.minAge)} />
      <TextInput label="Most days a week" hint="Empty: it stays as it is." type="number" min={1} max={7} isShort {...field("maxSessionsPerWeek", drill.maxSessionsPerWeek ?? "")} />
      <TextArea label="Leave it if" hint="One reason a line." mayBeEmpty rows={3} {...field("avoidIf", lines(drill.avoidIf))} />
      <fieldset className="field">
        <legend>Not with a complaint of</legend>
        <input type="hidden" name="hasAvoidParts" value="yes" />
        <div className="field-pair" style={{ width: "100%", gap: 0 }}>
          {PARTS.map((part) => (
            <CheckRow key={part} name={`avoidPart-${part}`} value={part} label={part} {...checkState(state, `avoidPart-${part}`, drill.avoidParts.includes(part))} />
          ))}
        </div>
      </fieldset>
      <TextArea label="Why" hint="At least three words. The head coach reads this first." required rows={3} maxLength={1000} {...field("reason")} />
      <div className="bar-line">
        <SubmitButton>Propose it</SubmitButton>
      </div>
    </form>
  );
}
