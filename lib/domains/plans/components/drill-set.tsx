import { ActButton } from "@/lib/domains/identity/components/act-button";
import { addDrill, moveDrill, removeDrill } from "../actions";
import type { DraftDrill, DraftView, ProposedDrill } from "../draft/view";
import { DoseForm } from "./dose-form";
import { WeekdaysForm } from "./weekdays-form";

function doseWords(times: number, swings: number): string {
  if (swings === 0) return `${times} times`;
  return swings === times ? `${swings} swings` : `${times} times, ${swings} swings`;
}

/** The drills that were taken, in order, with how often; each can be moved, re-dosed and taken out. */
export function DrillSet({ draft }: { draft: DraftView }) {
  return (
    <ol className="set">
      {draft.drills.map((drill, index) => (
        <TakenDrill key={drill.drillId} drill={drill} planId={draft.planId} isFirst={index === 0} isLast={index === draft.drills.length - 1} />
      ))}
    </ol>
  );
}

function TakenDrill({ drill, planId, isFirst, isLast }: { drill: DraftDrill; planId: string; isFirst: boolean; isLast: boolean }) {
  const fields = { planId, drillId: drill.drillId };
  return (
    <li className="no-pic">
      <div className="flow">
        <h3>{drill.name}</h3>
        <p className="small quiet">{drill.why}</p>
        {drill.limits.length > 0 ? (
          <p className="trouble small">
            <b>Has to come out.</b> {drill.limits.join(" ")}
          </p>
        ) : null}
        <div className="bar-line">
          {isFirst ? null : (
            <ActButton action={moveDrill} fields={{ ...fields, direction: "up" }} kind="plain" label={`Move ${drill.name} up`}>
              Up
            </ActButton>
          )}
          {isLast ? null : (
            <ActButton action={moveDrill} fields={{ ...fields, direction: "down" }} kind="plain" label={`Move ${drill.name} down`}>
              Down
            </ActButton>
          )}
          <ActButton action={removeDrill} fields={fields} kind="plain" label={`Take ${drill.name} out`}>
            Take out
          </ActButton>
        </div>
      </div>
      <div className="dosebox">
        <p className="dose">
          {doseWords(drill.timesPerDay, drill.swingsPerDay)}
          <span className="note">
            {drill.minutesPerDay} minutes{drill.dayWords ? `, ${drill.dayWords}` : ", any day"}
          </span>
        </p>
        <details>
          <summary className="btn plain">
            Change<span className="hush"> the dose and days of {drill.name}</span>
          </summary>
          <DoseForm planId={planId} drill={drill} />
          <WeekdaysForm planId={planId} drill={drill} />
        </details>
      </div>
    </li>
  );
}

/** The short list: what hard limits leave, in order of what it does for the focus. */
export function ProposedDrills({ draft, most = 4 }: { draft: DraftView; most?: number }) {
  const first = draft.proposed.slice(0, most);
  const rest = draft.proposed.slice(most);
  const list = (drills: readonly ProposedDrill[]) => (
    <ul className="plain-list">
      {drills.map((drill) => (
        <Proposed key={drill.id} drill={drill} planId={draft.planId} />
      ))}
    </ul>
  );
  return (
    <>
      {list(first)}
      {rest.length > 0 ? (
        <details>
          <summary className="btn plain">{rest.length} more that may be done</summary>
          {list(rest)}
        </details>
      ) : null}
    </>
  );
}

function Proposed({ drill, planId }: { drill: ProposedDrill; planId: string }) {
  return (
    <li className="flow">
      <h3>{drill.name}</h3>
      <p className="small">
        {drill.why} {drill.purpose}
      </p>
      <p className="note">
        {doseWords(drill.times, drill.swings)}, {drill.minutes} minutes
      </p>
      {drill.notFor ? <p className="note">Not in the plan as it stands: {drill.notFor}</p> : null}
      <ActButton action={addDrill} fields={{ planId, drillId: drill.id }} label={`Take ${drill.name}`}>
        Take
      </ActButton>
    </li>
  );
}

/** What serves the focus but may not be done now, with every limit in words. */
export function LeftOutDrills({ leftOut }: { leftOut: DraftView["leftOut"] }) {
  return (
    <ul className="leftout">
      {leftOut.map(({ name, limits }) => (
        <li key={name}>
          <b>{name}.</b> {limits.join(" ")}
        </li>
      ))}
    </ul>
  );
}
