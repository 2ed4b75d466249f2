import Link from "next/link";
import { longDay } from "@/lib/domains/plans/view";
import { sayMinutes } from "../rules";
import type { WalkthroughRow } from "../view";

interface WalkthroughListProps {
  readonly rows: readonly WalkthroughRow[];
  /** Where each is, without its number. */
  readonly base: string;
  /** For who made them: which of them were sent. */
  readonly isForCoach?: boolean;
}

/** Walkthroughs, newest first: what they are about and how long they take. */
export function WalkthroughList({ rows, base, isForCoach = false }: WalkthroughListProps) {
  return (
    <ul className="rows talk-rows">
      {rows.map(({ id, title, madeOn, from, lengthMs, chapterTitles, summary, sentOn }) => {
        const about = chapterTitles.filter((it) => it !== "Opening");
        return (
          <li key={id}>
            <p>
              <Link href={`${base}/${id}`}><b>{title}</b></Link> <span className="note">{sayMinutes(lengthMs)} minutes, {longDay(madeOn)}, from {from}{isForCoach ? (sentOn ? ", sent" : ", not sent yet") : ""}</span>
            </p>
            {summary ? <p>{summary}</p> : about.length > 0 ? <p className="note">{about.join(", ")}</p> : null}
          </li>
        );
      })}
    </ul>
  );
}
