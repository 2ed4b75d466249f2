import { SubmitButton } from "@/lib/ui/submit-button";
import { answerQuestion, takeBackAnswer } from "../asking/actions";
import type { AnswerGivenView, QuestionView } from "../asking/view";
import { dayWords } from "../view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

interface Who {
  playerId: string;
  side: string;
}

/** The single question or test that would tell the candidates apart: its answers, and what each would change. */
export function QuestionCard({ question, who }: { question: QuestionView; who: Who }) {
  const { questionId, head, words: asked, safety, takes, answers } = question;
  return (
    <section className="q next-question" aria-label={words.question.title}>
      <h3>
        {words.question.title}
        <span className="note">{words.question.takes(head, takes)}</span>
      </h3>
      <p className="said">“{asked}”</p>
      {safety ? <p className="small">{safety}</p> : null}
      <AnswerForm action={answerQuestion} given={{ ...who, questionId }}>
        <ul className="obs" aria-label={words.question.answers}>
          {answers.map(({ id, words: answer, then }) => (
            <li key={id} className="no-still">
              <div>
                <button type="submit" className="btn" name="answer" value={id}>
                  {answer}
                </button>
                <p className="note">{words.question.then(then)}</p>
              </div>
            </li>
          ))}
        </ul>
      </AnswerForm>
    </section>
  );
}

/** What was asked and answered, with a way back. */
export function AnswersGiven({ answers, who }: { answers: readonly AnswerGivenView[]; who: Who }) {
  return (
    <ul className="obs">
      {answers.map(({ questionId, question, answer, on, isStanding }) => (
        <li key={questionId} className="no-still">
          <div>
            <p className="small">“{question}”</p>
            <p>
              <b>{answer}</b> <span className="note">{isStanding ? words.question.on(dayWords(on)) : words.question.tooOld(dayWords(on))}</span>
            </p>
          </div>
          <AnswerForm action={takeBackAnswer} given={{ ...who, questionId }}>
            <SubmitButton kind="plain">
              {words.call.takeBack}
              <span className="hush">: {answer}</span>
            </SubmitButton>
          </AnswerForm>
        </li>
      ))}
    </ul>
  );
}
