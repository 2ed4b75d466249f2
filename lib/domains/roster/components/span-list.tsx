import type { ReactNode } from "react";
import type { PersonSpan } from "../view";
import { spanWords } from "./words";

interface SpanListProps<Span extends PersonSpan> {
  spans: readonly Span[];
  empty: string;
  /** What else to say of one. */
  more?: (span: Span) => string;
  /** What can be done with one that holds and has no end yet. */
  act: (span: Span) => ReactNode;
}

/** People who belong to a player from a day and until one; those of today first, as they came. */
export function SpanList<Span extends PersonSpan>({ spans, empty, more, act }: SpanListProps<Span>) {
  if (spans.length === 0) return <p>{empty}</p>;
  const ordered = [...spans.filter(({ isNow }) => isNow), ...spans.filter(({ isNow }) => !isNow)];
  return (
    <ul className="plain-list">
      {ordered.map((span) => (
        <li key={span.id} className="bar-line">
          <span>
            <b>{span.name}</b>
            {more ? `, ${more(span)}` : null}, {spanWords(span)}
          </span>
          {span.isNow && span.until === null ? act(span) : null}
        </li>
      ))}
    </ul>
  );
}
