import type { ActionState } from "@/lib/core/action-state";
import { fieldState } from "@/lib/ui/field-state";
import { Select } from "@/lib/ui/select";
import { TextInput } from "@/lib/ui/text-input";
import type { CueView } from "../view";
import { FOCUS_WORDS } from "./words";

const MORE = 2;
const FOCI = Object.entries(FOCUS_WORDS).map(([value, label]) => ({ value, label }));

/** One row for each cue and two for new ones; a row without words is left out. */
export function CueFields({ cues, state }: { cues: readonly CueView[]; state: ActionState }) {
  const rows = [...cues, ...Array.from({ length: MORE }, (): CueView => ({ text: "", focus: "external" }))];
  const error = state.status === "refused" ? state.fields.cueText : undefined;
  return (
    <fieldset className="field">
      <legend>Cues, the first points outside the body; a row without words is left out</legend>
      {rows.map(({ text, focus }, index) => (
        <div key={index} className="field-pair" style={{ width: "100%" }}>
          <TextInput label={`Cue ${index + 1}`} name={`cueText${index}`} maxLength={300} {...fieldState(state, `cueText${index}`, text)} error={index === 0 ? error : undefined} />
          <Select label={`Cue ${index + 1} points to`} name={`cueFocus${index}`} options={FOCI} {...fieldState(state, `cueFocus${index}`, focus)} />
        </div>
      ))}
    </fieldset>
  );
}
