import Link from "next/link";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import type { DrillRowView, FaultRowView, SearchView } from "../view";
import { countOf, SETUP_WORDS } from "./words";

/** Faults as links, with what matched. */
export function FaultList({ faults }: { faults: readonly FaultRowView[] }) {
  return (
    <ul className="rows">
      {faults.map(({ id, name, phaseName, matched }) => (
        <li key={id}>
          <Link href={`/library/faults/${id}`}>{name}</Link>
          <span className="small quiet">{matched ? `found by “${matched}”` : phaseName}</span>
        </li>
      ))}
    </ul>
  );
}

/** Drills as links, with what they are for. */
export function DrillList({ drills }: { drills: readonly DrillRowView[] }) {
  return (
    <ul className="keyed">
      {drills.map(({ id, name, purpose, matched }) => (
        <li key={id}>
          <Link href={`/library/drills/${id}`}>{name}</Link>
          <span className="small">{matched ? `found by “${matched}”` : purpose}</span>
        </li>
      ))}
    </ul>
  );
}

/** What a search found; says so when it found nothing. */
export function SearchResults({ found: { text, faults, drills } }: { found: SearchView }) {
  if (faults.length + drills.length === 0) {
    return (
      <Empty title={`Nothing is found by “${text}”.`} level="h2">
        Try a shorter word, or what the ball did. If coaches say it, propose it as another name on the page of its fault.
      </Empty>
    );
  }
  return (
    <>
      <p role="status" className="note">
        {countOf(faults.length, "fault")} and {countOf(drills.length, "drill")} for “{text}”
      </p>
      {faults.length > 0 ? (
        <Entry side="Faults" isHeading>
          <FaultList faults={faults} />
        </Entry>
      ) : null}
      {drills.length > 0 ? (
        <Entry side="Drills" isHeading>
          <DrillList drills={drills} />
        </Entry>
      ) : null}
    </>
  );
}

/** Drills of one set-up behind a line that opens. */
export function SetupDrills({ setup, drills }: { setup: string; drills: readonly DrillRowView[] }) {
  return (
    <details>
      <summary style={{ paddingBlock: "var(--s3)" }}>
        <b>{SETUP_WORDS[setup] ?? setup}</b> <span className="quiet">{countOf(drills.length, "drill")}</span>
      </summary>
      <DrillList drills={drills} />
    </details>
  );
}
