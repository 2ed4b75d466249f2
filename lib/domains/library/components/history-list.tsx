import Link from "next/link";
import type { ChangeView } from "../view";
import { dayWords } from "./words";

/** The editions that changed a record, newest first. Proposals are for coaches; others read the words only. */
export function HistoryList({ history, areLinked }: { history: readonly ChangeView[]; areLinked: boolean }) {
  if (history.length === 0) return <p className="quiet">It is as it came with the first edition.</p>;
  return (
    <ul className="plain-list">
      {history.map(({ editionNumber, on, by, reason, proposalId }) => (
        <li key={proposalId}>
          {areLinked ? <Link href={`/library/proposals/${proposalId}`}>Edition {editionNumber}</Link> : <b>Edition {editionNumber}</b>}{" "}
          <span className="small quiet">
            <time dateTime={on}>{dayWords(on)}</time>, proposed by {by}
          </span>
          <br />
          <span className="small">{reason}</span>
        </li>
      ))}
    </ul>
  );
}
