import { SubmitButton } from "@/lib/ui/submit-button";
import { undoOverrule } from "../actions";
import { dayWords, type OverruledView } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

/** Candidates a coach said no to, each with the reason and a way back. */
export function OverruledList({ overruled, playerId, side }: { overruled: readonly OverruledView[]; playerId: string; side: string }) {
  return (
    <section className="q" aria-label={words.overruled.title}>
      <h3>{words.overruled.title}</h3>
      <ul className="obs">
        {overruled.map(({ id, name, reason, by, on }) => (
          <li key={id} className="no-still">
            <div>
              <b>{name}</b>
              <p className="said">“{reason}”</p>
              <p className="note">{words.overruled.by(by, dayWords(on))}</p>
            </div>
            <AnswerForm action={undoOverrule} given={{ playerId, side, overruleId: id }}>
              <SubmitButton kind="plain">
                {words.overruled.undo}
                <span className="hush">: {name}</span>
              </SubmitButton>
            </AnswerForm>
          </li>
        ))}
      </ul>
    </section>
  );
}
