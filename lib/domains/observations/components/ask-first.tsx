import { AskFirst } from "@/lib/ui/papers";
import { answerCause } from "../actions";
import type { AskFirstView } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

const ANSWERS = ["yes", "no", "not-asked"] as const;
const SAID = { yes: words.ask.yes, no: words.ask.no, "not-asked": words.ask.notAsked };

interface AskProps {
  cause: AskFirstView;
  playerId: string;
  side: string;
}

/** A cause that is no homework: what to ask or check before anything is chosen, answered in one press. */
export function AskCause({ cause, playerId, side }: AskProps) {
  const { nodeId, name, question, howToCheck, firstAction, answer } = cause;
  return (
    <AskFirst
      title={answer === "not-asked" ? undefined : words.ask.asked}
      answer={
        <AnswerForm action={answerCause} given={{ playerId, side, nodeId }}>
          <div className="pick" role="group" aria-label={words.ask.group(name)}>
            {ANSWERS.map((one) => (
              <button key={one} type="submit" name="answer" value={one} aria-pressed={answer === one}>
                {SAID[one]}
              </button>
            ))}
          </div>
        </AnswerForm>
      }
    >
      {name}? {question ? <span className="said">“{question}”</span> : <span className="small">{howToCheck}</span>}
      {answer === "yes" ? (
        <span className="small">
          {" "}
          {words.ask.then} {firstAction}
        </span>
      ) : null}
    </AskFirst>
  );
}
