import type { Reading } from "@/lib/measure/reading";
import { readingWords } from "@/lib/measure/reading-words";
import { needIds, needOf } from "./groups";
import { measurementWords as words } from "./words";

interface UnreadReadingsProps {
  readonly readings: readonly Reading[];
  readonly nameOf: (reading: Reading) => string;
}

/** What is not read, folded: by what it waits for, each with its own reason. */
export function UnreadReadings({ readings, nameOf }: UnreadReadingsProps) {
  if (readings.length === 0) return null;
  return (
    <details className="fold">
      <summary>{words.notRead(readings.length)}</summary>
      {needIds.map((need) => {
        const own = readings.filter((it) => needOf(it) === need);
        return own.length === 0 ? null : (
          <div key={need} className="reading-group">
            <h3>
              {words.needs[need]} <span className="quiet">{own.length}</span>
            </h3>
            {need === "view" ? (
              <p className="small quiet">{own.map(nameOf).join(", ")}.</p>
            ) : (
              <ul className="readings">
                {own.map((it) => (
                  <li key={it.checkpointId} className="off">
                    <b>{nameOf(it)}</b>
                    <br />
                    {readingWords(it).why[0] ?? words.notReadHere}
                  </li>
                ))}
              </ul>
            )}
          </div>
        );
      })}
    </details>
  );
}
