import { useId, type ReactNode } from "react";
import { uiWords } from "./words/ui-words";

interface ProgressProps {
  /** What is being done, with its numbers: "Reading 4 of 9 clips." */
  label: ReactNode;
  done: number;
  total: number;
  /** What else to know; otherwise says that it can be left. */
  note?: ReactNode;
}

const MOST_DIVISIONS = 48;

/** A ruler with as many divisions as there are things, hatched up to now. */
export function Progress({ label, done, total, note = uiWords.progress.canLeave }: ProgressProps) {
  const id = useId();
  const divisions = Math.max(1, Math.min(total, MOST_DIVISIONS));
  const filled = total > 0 ? Math.floor((Math.min(done, total) / total) * divisions) : 0;
  return (
    <div className="progress">
      <p id={id}>
        <b>{label}</b> <span className="quiet">{note}</span>
      </p>
      <div className="ruler" role="progressbar" aria-labelledby={id} aria-valuemin={0} aria-valuemax={total} aria-valuenow={done}>
        {Array.from({ length: divisions }, (_, index) => (
          <i key={index} className={index < filled ? "on" : undefined} />
        ))}
      </div>
    </div>
  );
}
