"use client";

import { useActionState } from "react";
import { LEVELS } from "@/lib/core/age";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import { levelWords } from "@/lib/measure/several/near-models";
import { Choice } from "@/lib/ui/choice";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { DateInput, TextArea, TextInput } from "@/lib/ui/text-input";
import { editModel, keepModel } from "../../models/actions";
import { BASIS_WORDS, RIGHT_BASES } from "../../models/rules";
import type { ModelRow, ModelTags } from "../../models/view";
import { factOptions } from "../add-words";

interface ModelFormProps {
  /** The swing that becomes a model, or the model that is changed. */
  of: { readonly swingId: string } | { readonly modelId: string };
  tags: Omit<ModelTags, "label"> & { readonly label?: string };
  right?: Pick<ModelRow, "rightHolder" | "rightBasis" | "rightUntil" | "rightNote">;
}

/** What is told of a model, and the right by which it is shown. Side and view follow from the clip. */
export function ModelForm({ of, tags, right }: ModelFormProps) {
  const isNew = "swingId" in of;
  const [state, act] = useActionState<ActionState, FormData>(isNew ? keepModel : editModel, IDLE);
  const field = (name: string, initial?: string) => ({ name, ...fieldState(state, name, initial) });
  return (
    <form action={act} className="form">
      <FormStatus state={state} />
      {Object.entries(of).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <TextInput label="What coaches see it called" hint="Made up, such as “Left-hander, quiet hands”. Never the hitter's name." maxLength={60} required {...field("label", tags.label)} />
      <Choice label="Sport" options={[{ value: "baseball", label: "Baseball" }, { value: "softball", label: "Softball" }]} {...field("sport", tags.sport)} />
      <Select label="Level" options={LEVELS.map((level) => ({ value: level, label: levelWords(level) }))} {...field("level", tags.level)} />
      <Choice
        label="The hitter is" hint="Beside a child, a grown model says that levers and timing differ."
        options={[{ value: "growing", label: "Still growing" }, { value: "grown", label: "Grown" }]} {...field("body", tags.isAdult ? "grown" : "growing")}
      />
      <TextInput label="Standing height" hint="In metres, on the day it was filmed, such as 1.52." inputMode="decimal" mayBeEmpty {...field("heightM", tags.heightM?.toString())} />
      <Select label="What was hit" options={factOptions.task} {...field("task", tags.task)} />
      <Select label="How high the ball" options={factOptions.pitchHeight} {...field("pitchHeight", tags.pitchHeight)} />
      <Select label="Which side of the plate" options={factOptions.pitchSide} {...field("pitchSide", tags.pitchSide)} />
      <TextInput label="Whose right it is" hint="Such as the hitter, the family, or who filmed it. Only head coaches read this." maxLength={120} required {...field("rightHolder", right?.rightHolder)} />
      <Select label="What the right rests on" empty={right ? undefined : true} required options={RIGHT_BASES.map((basis) => ({ value: basis, label: BASIS_WORDS[basis] }))} {...field("rightBasis", right?.rightBasis)} />
      <DateInput label="Until" hint="The first day on which it no longer holds. From that day on the model is shown nowhere." required {...field("rightUntil", right?.rightUntil)} />
      <TextArea label="Note" hint="Where the paper lies, what it leaves out." mayBeEmpty rows={3} maxLength={500} {...field("rightNote", right?.rightNote)} />
      <div className="bar-line">
        <SubmitButton>{isNew ? "Keep as a model" : "Keep the changes"}</SubmitButton>
      </div>
    </form>
  );
}
