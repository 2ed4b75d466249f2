import Link from "next/link";
import { State } from "@/lib/ui/state";
import type { SymptomView } from "../tally/view";
import { words } from "./words";

/** What the ball does, as the tally or a coach says, and the way to the tally. */
export function SymptomList({ symptoms, href }: { symptoms: readonly SymptomView[]; href: string }) {
  return (
    <section className="q" aria-label={words.ball.title}>
      <h3>{words.ball.title}</h3>
      {symptoms.length === 0 ? <p className="small">{words.ball.none}</p> : null}
      <ul className="obs">
        {symptoms.map(({ symptomId, name, state, countWords, isCalled }) => (
          <li key={symptomId} className="no-still">
            <div>
              <b>{name}</b> <State is={state} />
              <p className="note">{isCalled ? words.ball.called : countWords}</p>
            </div>
          </li>
        ))}
      </ul>
      <p>
        <Link className="btn" href={href}>
          {words.ball.open}
        </Link>
      </p>
    </section>
  );
}
