import Link from "next/link";
import type { OverruleHintView } from "../overruling/view";
import { dayWords } from "../view";
import { words } from "./words";

/** What coaches said no to, most often first: why, and which links of the library put it there. */
export function OverruleHints({ hints }: { hints: readonly OverruleHintView[] }) {
  if (hints.length === 0) return <p>{words.hints.none}</p>;
  return hints.map(({ faultId, name, count, coachCount, playerCount, chosenCount, reasons, links }) => (
    <section key={faultId} className="q">
      <h2>
        <Link href={`/library/faults/${faultId}`}>{name}</Link>
      </h2>
      <p>
        {words.hints.count(count, coachCount, playerCount)} {words.hints.chosen(chosenCount)}
      </p>
      <ul className="obs">
        {reasons.map(({ id, reason, by, on, isTakenBack }) => (
          <li key={id} className="no-still">
            <div>
              <p className="said">“{reason}”</p>
              <p className="note">
                {words.overruled.by(by, dayWords(on))}
                {isTakenBack ? `; ${words.hints.takenBack}` : null}
              </p>
            </div>
          </li>
        ))}
      </ul>
      {links.length > 0 ? (
        <>
          <p className="small">{words.hints.links}</p>
          <ul>
            {links.map(({ words: link, strength }) => (
              <li key={link} className="small">
                {link} <span className="note">{words.hints.strength(strength)}</span>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </section>
  ));
}
