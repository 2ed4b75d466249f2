import { SubmitButton } from "@/lib/ui/submit-button";
import { chooseFocus } from "../actions";
import type { FocusView } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

interface ChooseFocusProps {
  given: Readonly<Record<string, string>>;
  /** With two in focus, the form asks which to park. */
  active: readonly FocusView[];
  isMain: boolean;
  /** What would be chosen, for those who hear the page. */
  name: string;
}

/** Makes one thing the focus. A third asks which of the two shall be parked for it. */
export function ChooseFocus({ given, active, isMain, name }: ChooseFocusProps) {
  if (active.length < 2) {
    return (
      <AnswerForm action={chooseFocus} given={given}>
        <SubmitButton kind={isMain ? "main" : undefined}>
          {words.candidate.choose}
          <span className="hush">: {name}</span>
        </SubmitButton>
      </AnswerForm>
    );
  }
  return (
    <details>
      <summary className={isMain ? "btn main" : "btn"}>
        {words.candidate.choose}
        <span className="hush">: {name}</span>
      </summary>
      <AnswerForm action={chooseFocus} given={given}>
        <p className="small">{words.candidate.parkFirst}</p>
        <div className="bar-line">
          {active.map((focus) => (
            <button key={focus.id} type="submit" className="btn" name="parkId" value={focus.id}>
              {words.candidate.park(focus.name)}
            </button>
          ))}
        </div>
      </AnswerForm>
    </details>
  );
}
