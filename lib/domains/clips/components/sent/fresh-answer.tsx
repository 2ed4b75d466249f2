import Link from "next/link";
import type { FreshAnswer } from "../../sent/view";
import { sentWords } from "./sent-words";

/** On the family's first page: what was sent has an answer. */
export function FreshAnswerLine({ answer: { playerId, sentId, by } }: { answer: FreshAnswer }) {
  return (
    <p className="bar-line">
      {sentWords.fresh(by)}
      <Link className="btn" href={`/family/${playerId}/clips/${sentId}`}>
        {sentWords.open}
      </Link>
    </p>
  );
}
