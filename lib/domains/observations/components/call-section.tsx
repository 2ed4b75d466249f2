import Link from "next/link";
import { clipAddress } from "@/lib/domains/clips/schema";
import type { CallRowView, CallSectionView } from "../view";
import { CallList, type CallItem } from "./call-list";
import { words } from "./words";

interface CallSectionProps {
  section: CallSectionView;
  /** Whose swing is called. */
  swing: Readonly<Record<"playerId" | "side" | "swingId", string>>;
  /** Where the page shows also what it leaves out at first. */
  allHref: string;
}

/** One of the academy's own questions: what was called or read stands first, then what nobody looked at; beyond the three questions that comes when it is asked for. */
export function CallSection({ section, swing, allHref }: CallSectionProps) {
  // "What did the back leg do: did it load …?" reads as a head and a second line.
  const [head = "", more] = section.question.split(/:\s*/, 2);
  const { rows, others, otherCount } = section;
  return (
    <section className="q">
      <h3>
        {more ? `${head}?` : head}
        {more ? <span className="note">{more.charAt(0).toUpperCase() + more.slice(1)}</span> : null}
      </h3>
      {rows.length > 0 ? <CallList items={rows.map(withStill)} given={swing} /> : null}
      {others.length > 0 ? (
        <details open>
          <summary className="btn plain">{words.call.unlooked(others.length)}</summary>
          <CallList items={others.map(withStill)} given={swing} />
        </details>
      ) : null}
      {others.length === 0 && otherCount > 0 ? (
        <Link className="btn plain" href={allHref} scroll={false}>
          {words.call.showRest(otherCount)}
        </Link>
      ) : null}
    </section>
  );
}

const withStill = (row: CallRowView): CallItem => ({ ...row, stillUrl: row.still && clipAddress.still(row.still.clipId, row.still.frameIndex) });
