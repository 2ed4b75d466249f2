import Link from "next/link";
import type { SentForCoach } from "../../sent/view";
import { sentWords } from "./sent-words";

const words = sentWords.coach;

/** Under the clock of a clip that a family sent: what it asks, and the ways to answer, one of them with the frame that is shown. */
export function AnswerHere({ sent, clipId, frameIndex }: { readonly sent: SentForCoach; readonly clipId: string; readonly frameIndex: number }) {
  const base = `/swings/${sent.swingId}`;
  return (
    <section className="pencilled answer-here" aria-label={words.asked(sent.givenName, sent.waited)}>
      <p>
        <b>{sent.answeredBy ? words.answered(sent.givenName, sent.answeredBy) : words.asked(sent.givenName, sent.waited)}.</b> {sent.words ? `“${sent.words}”` : null}
      </p>
      <div className="bar-line">
        <Link className="btn" href={`${base}/answer?clip=${clipId}&frame=${frameIndex}`}>
          {words.here}
        </Link>
        <Link className="btn plain" href={`${base}/talk?clip=${clipId}`}>
          {words.talk}
        </Link>
      </div>
    </section>
  );
}
