import { State } from "@/lib/ui/state";
import { SubmitButton } from "@/lib/ui/submit-button";
import { callSymptom, takeBackBall } from "../tally/actions";
import type { BallView, SymptomView } from "../tally/view";
import { dayWords } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

interface Who {
  playerId: string;
  side: string;
}

const STATES = ["seen", "not-seen"] as const;

/** What the balls say together; what says nothing yet is folded away. The coach's own word stands above them. */
export function TallySays({ symptoms, who }: { symptoms: readonly SymptomView[]; who: Who }) {
  const speaking = symptoms.filter(({ state }) => state !== "not-visible");
  const silent = symptoms.filter(({ state }) => state === "not-visible");
  return (
    <section className="q">
      <h2>{words.tally.says}</h2>
      <SymptomRows symptoms={speaking} who={who} />
      <details>
        <summary className="btn plain">{words.tally.silent(silent.length)}</summary>
        <SymptomRows symptoms={silent} who={who} />
      </details>
    </section>
  );
}

function SymptomRows({ symptoms, who }: { symptoms: readonly SymptomView[]; who: Who }) {
  return (
    <ul className="obs">
      {symptoms.map(({ symptomId, name, state, countWords, isCalled }) => (
        <li key={symptomId} className="no-still">
          <div>
            <b>{name}</b> {state === "not-visible" ? null : <State is={state} />}
            {isCalled || countWords ? <p className="note">{isCalled ? words.ball.called : countWords}</p> : null}
            <AnswerForm action={callSymptom} given={{ ...who, symptomId }}>
              <div className="pick" role="group" aria-label={words.tally.own(name)}>
                {STATES.map((one) => (
                  <button key={one} type="submit" name="state" value={one} aria-pressed={isCalled && state === one}>
                    <State is={one} />
                  </button>
                ))}
                {isCalled ? (
                  <button type="submit" name="state" value="take-back">
                    {words.call.takeBack}
                  </button>
                ) : null}
              </div>
            </AnswerForm>
          </div>
        </li>
      ))}
    </ul>
  );
}

/** The last balls, newest first, each with a way back. */
export function LastBalls({ balls, count, who }: { balls: readonly BallView[]; count: number; who: Who }) {
  return (
    <section className="q">
      <h2>{count === 0 ? words.tally.none : words.tally.last(count)}</h2>
      <ul className="obs">
        {balls.map(({ id, day, words: said }) => (
          <li key={id} className="no-still">
            <div>
              {said} <span className="note">{dayWords(day)}</span>
            </div>
            <AnswerForm action={takeBackBall} given={{ ...who, ballId: id }}>
              <SubmitButton kind="plain">
                {words.call.takeBack}
                <span className="hush">: {said}</span>
              </SubmitButton>
            </AnswerForm>
          </li>
        ))}
      </ul>
    </section>
  );
}
