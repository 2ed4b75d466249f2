import Link from "next/link";
import type { FreshAnswer } from "../../sent/view";
import type { Say } from "@/lib/core/words/say";

/** On the family's first page: what was sent has an answer. */
export function FreshAnswerLine({ answer: { playerId, sentId, by }, say }: { answer: FreshAnswer; say: Say }) {
  return (
    <p className="bar-line">
      {say("{who} looked at the clip you sent and answered.", { who: by })}
      <Link className="btn" href={`/family/${playerId}/clips/${sentId}`}>
        {say("Open the answer")}
      </Link>
    </p>
  );
}
