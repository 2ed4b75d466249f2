import { Entry } from "@/lib/ui/entry";
import type { FieldDifference } from "../rules";
import { fieldWords } from "./words";

const sideOf = (difference: FieldDifference, side: "removed" | "added") => difference.runs.filter(({ kind }) => kind === "same" || kind === side);

/** One side of a comparison: what only this side has is struck or underlined, and says so to whoever hears it. */
function Side({ title, difference, side }: { title: string; difference: FieldDifference; side: "removed" | "added" }) {
  const Mark = side === "removed" ? "del" : "ins";
  const runs = sideOf(difference, side);
  return (
    <div>
      <h3 className="label">{title}</h3>
      <p style={{ whiteSpace: "pre-line" }}>
        {runs.length === 0 ? <span className="quiet">nothing</span> : null}
        {runs.map(({ kind, text }, index) =>
          kind === "same" ? (
            // Runs have no other name than their place.
            <span key={index}>{text}</span>
          ) : (
            <Mark key={index}>
              <span className="hush">{side === "removed" ? " taken out: " : " put in: "}</span>
              <b>{text}</b>
              <span className="hush"> end of that </span>
            </Mark>
          ),
        )}
      </p>
    </div>
  );
}

/** Field by field, what is in force beside what is proposed. */
export function Differences({ differences, before, after }: { differences: readonly FieldDifference[]; before: string; after: string }) {
  return differences.map((difference) => (
    <Entry key={difference.field} side={fieldWords(difference.field)} note={difference.hasConflict ? "has changed since" : undefined} isHeading>
      <div className="field-pair">
        <Side title={before} difference={difference} side="removed" />
        <Side title={after} difference={difference} side="added" />
      </div>
    </Entry>
  ));
}
