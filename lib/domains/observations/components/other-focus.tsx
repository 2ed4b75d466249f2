import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { chooseFocus } from "../actions";
import type { FocusView } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

interface OtherFocusProps {
  /** All that is looked for from this side. */
  faults: readonly { readonly faultId: string; readonly name: string }[];
  active: readonly FocusView[];
  playerId: string;
  side: string;
}

/** The coach decides, whatever the order says: any fault that is looked for can become the focus. */
export function OtherFocus({ faults, active, playerId, side }: OtherFocusProps) {
  const options = faults
    .filter(({ faultId }) => !active.some((focus) => focus.faultId === faultId))
    .map(({ faultId, name }) => ({ value: faultId, label: name }))
    .sort((a, b) => (a.label < b.label ? -1 : 1));
  return (
    <details>
      <summary className="btn plain">{words.candidate.byHand}</summary>
      <AnswerForm action={chooseFocus} given={{ playerId, side }} className="form">
        <Select name="faultId" label={words.candidate.which} options={options} empty required />
        {active.length < 2 ? (
          <SubmitButton kind={undefined}>{words.candidate.choose}</SubmitButton>
        ) : (
          <>
            <p className="small">{words.candidate.parkFirst}</p>
            <div className="bar-line">
              {active.map((focus) => (
                <button key={focus.id} type="submit" className="btn" name="parkId" value={focus.id}>
                  {words.candidate.park(focus.name)}
                </button>
              ))}
            </div>
          </>
        )}
      </AnswerForm>
    </details>
  );
}
