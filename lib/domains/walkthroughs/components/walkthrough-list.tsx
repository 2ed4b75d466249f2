import Link from "next/link";
import { english, type Say } from "@/lib/core/words/say";
import { sayMinutes } from "../rules";
import type { WalkthroughRow } from "../view";

interface WalkthroughListProps {
  readonly rows: readonly WalkthroughRow[];
  /** Where each is, without its number. */
  readonly base: string;
  /** For who made them: which of them were sent. */
  readonly isForCoach?: boolean;
  readonly say?: Say;
}

/** Walkthroughs, newest first: what they are about and how long they take. */
export function WalkthroughList({ rows, base, isForCoach = false, say = english }: WalkthroughListProps) {
  return (
    <ul className="rows talk-rows">
      {rows.map(({ id, title, madeOn, from, lengthMs, chapterTitles, summary, sentOn }) => {
        const about = chapterTitles.filter((it) => it !== "Opening");
        return (
          <li key={id}>
            <p>
              <Link href={`${base}/${id}`}><b lang={say.asWritten}>{title}</b></Link> <span className="note">{say("{time} minutes, {day}, from {who}", { time: sayMinutes(lengthMs), day: say.day(madeOn), who: from })}{isForCoach ? (sentOn ? ", sent" : ", not sent yet") : ""}</span>
            </p>
            {summary ? <p lang={say.asWritten}>{summary}</p> : about.length > 0 ? <p className="note" lang={say.asWritten}>{about.join(", ")}</p> : null}
          </li>
        );
      })}
    </ul>
  );
}
