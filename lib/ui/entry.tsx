import { useId, type ReactNode } from "react";
import { classNames } from "./class-names";

interface EntryProps {
  /** Left of the double line: what it is, or when. */
  side: ReactNode;
  /** A quiet second line under it. */
  note?: ReactNode;
  children: ReactNode;
  /** Makes the side a heading (h2) and the entry a named section; otherwise give `label`. */
  isHeading?: boolean;
  label?: string;
  /** Opens with an ink bar instead of a hairline. */
  isStrong?: boolean;
  /** The entry in hand: on a lighter leaf, its margin in pencil. */
  isNow?: boolean;
}

/** One entry of a page, hanging from the double margin line. */
export function Entry({ side, note, children, isHeading = false, label, isStrong = false, isNow = false }: EntryProps) {
  const sideId = useId();
  const Side = isHeading ? "h2" : "p";
  return (
    <section
      className={classNames("entry", isStrong && "strong", isNow && "now")}
      aria-label={label}
      aria-labelledby={label ? undefined : sideId}
    >
      <Side className="side" id={sideId}>
        {side}
        {note ? <span className="note">{note}</span> : null}
      </Side>
      <div className="body">{children}</div>
    </section>
  );
}
