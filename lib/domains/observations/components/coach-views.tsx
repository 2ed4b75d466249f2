import { State } from "@/lib/ui/state";
import type { CoachViewsView } from "../coaches/view";
import { words } from "./words";

/** Several coaches' calls of one swing side by side, and what would come first by each. */
export function CoachViews({ view: { coaches, rows } }: { view: CoachViewsView }) {
  if (coaches.length === 0) return <p>{words.coaches.none}</p>;
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label={words.coaches.title}>
      <table className="ledger">
        <thead>
          <tr>
            <th scope="col">{words.coaches.thing}</th>
            {coaches.map(({ coachId, name }) => (
              <th key={coachId} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">{words.coaches.first}</th>
            {coaches.map(({ coachId, first, why }) => (
              <td key={coachId}>{first.length > 0 ? <ol>{first.map((name) => <li key={name}>{name}</li>)}</ol> : why}</td>
            ))}
          </tr>
          {rows.map(({ faultId, name, isDifferent, states }) => (
            <tr key={faultId}>
              <th scope="row">
                {name} {isDifferent ? <span className="note">{words.coaches.differ}</span> : null}
              </th>
              {states.map((state, index) => (
                <td key={coaches[index]?.coachId}>{state ? <State is={state} /> : words.coaches.uncalled}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
