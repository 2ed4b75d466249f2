import type { ReactNode } from "react";
import { uiWords } from "./words/ui-words";

interface Counts {
  /** How many have it. */
  count: number;
  /** Of how many that show it. */
  total: number;
  /** How many do not show it; they are hatched and stand outside the sum. */
  notVisible?: number;
}

/** More dots than this say less than the sentence does. */
const MOST_DOTS = 15;

function times(count: number): number[] {
  return Array.from({ length: Math.max(0, count) }, (_, index) => index);
}

/** Dots of a count: filled, open, hatched for not visible. Read aloud only through the words beside it. */
export function Tally({ count, total, notVisible = 0 }: Counts) {
  if (total + notVisible > MOST_DOTS) return null;
  return (
    <span className="tally" aria-hidden="true">
      {times(count).map((index) => (
        <i key={`on-${index}`} className="on" />
      ))}
      {times(total - count).map((index) => (
        <i key={`off-${index}`} />
      ))}
      {times(notVisible).map((index) => (
        <i key={`hatched-${index}`} className="hatched" />
      ))}
    </span>
  );
}

/** "4 of 5 swings" with its dots under it; what is not visible is left out of the sum and said so. */
export function CountRow({ count, total, notVisible = 0, unit, children }: Counts & { unit?: string; children?: ReactNode }) {
  const text = notVisible > 0 ? uiWords.count.ofThatShowIt(count, total) : uiWords.count.of(count, total);
  return (
    <span className="count-row">
      <span className="count">
        {text}
        {unit && notVisible === 0 ? ` ${unit}` : null}
      </span>
      <Tally count={count} total={total} notVisible={notVisible} />
      {notVisible > 0 ? <span className="hush">{uiWords.count.notVisible(notVisible)}</span> : null}
      {children}
    </span>
  );
}
