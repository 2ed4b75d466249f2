import { SubmitButton } from "@/lib/ui/submit-button";
import { TextInput } from "@/lib/ui/text-input";
import { noteCue } from "../asking/actions";
import type { FocusView } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

/** The words that clicked for this player: they stand first next time, for this player only. */
export function ClickedCue({ focus, who }: { focus: FocusView; who: { playerId: string; side: string } }) {
  return (
    <details>
      <summary className="btn plain">
        {focus.hasClicked ? words.cue.change : words.cue.which}
        <span className="hush">: {focus.name}</span>
      </summary>
      <AnswerForm action={noteCue} given={{ ...who, faultId: focus.faultId }} className="form">
        <fieldset className="field">
          <legend className="hush">{words.cue.which}</legend>
          {focus.cues.map((cue) => (
            <label key={cue} className="tick">
              <input type="radio" name="cue" value={cue} defaultChecked={focus.hasClicked && cue === focus.cue} />
              <span>“{cue}”</span>
            </label>
          ))}
          {focus.hasClicked ? (
            <label className="tick">
              <input type="radio" name="cue" value="" />
              <span>{words.cue.none}</span>
            </label>
          ) : null}
        </fieldset>
        <TextInput name="ownCue" label={words.cue.own} mayBeEmpty autoComplete="off" maxLength={120} />
        <SubmitButton kind={undefined}>{words.cue.keep}</SubmitButton>
      </AnswerForm>
    </details>
  );
}
