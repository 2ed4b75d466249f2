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

/** What the balls say together, and the coach's own word, which stands above them. */
export function TallySays({ symptoms, who }: { symptoms: readonly SymptomView[]; who: Who }) {
  const ordered = [...symptoms].sort((a, b) => Number(a.state === "not-visible") - Number(b.state === "not-visible"));
  return (
    <section className="q">
      <h2>{words.tally.says}</h2>
      <ul className="obs">
        {ordered.map(({ symptomId, name, state, countWords, isCalled }) => (
          <li key={symptomId} className="no-still">
            <div>
              <b>{name}</b> {state === "not-visible" ? <span className="note">{words.tally.saysNothing}</span> : <State is={state} />}
              {isCalled || countWords ? <p className="note">{isCalled ? words.ball.called : countWords}</p> : null}
              <details>
                <summary className="btn plain">
                  {isCalled ? words.call.takeBack : words.tally.own("").replace(/^: /, "")}
                  <span className="hush">: {name}</span>
                </summary>
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
              </details>
            </div>
          </li>
        ))}
      </ul>
    </section>
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
