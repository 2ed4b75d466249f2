import type { FormAction } from "@/lib/domains/identity/components/act-button";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ClearHeadBlow } from "@/lib/domains/roster/components/clear-head-blow";
import { HeadBlowCaution } from "@/lib/domains/roster/components/head-blow";
import { INCIDENT_WORDS } from "@/lib/domains/roster/incidents/rules";
import type { StopsView, StopView } from "../view";
import { listed, PART_WORDS, STOP_ID } from "./words";

interface StopPartProps {
  view: StopsView;
  /** Drills that wait. */
  onHold?: readonly string[];
  /** Clears the family's part; who may not clear is shown no button. */
  clear: FormAction;
  level?: "h1" | "h2";
}

/** Swings stop: what to do now, who was told, what waits, what clears it. Calm, and no word about what an ache is. */
export function StopPart({ view, onHold = [], clear, level: Heading = "h2" }: StopPartProps) {
  if (view.stops.length === 0) return null;
  return (
    <section id={STOP_ID} tabIndex={-1} className="trouble flow" aria-labelledby={`${STOP_ID}-title`}>
      <Heading id={`${STOP_ID}-title`} className="shout">
        Stop. Tell an adult.
      </Heading>
      <p className="lead">Swings are paused now. {view.stops.every(({ noted }) => noted) ? "" : "It was right to say it. "}Nobody is cross.</p>
      <p>A licensed clinician decides what an ache is. We do not guess.</p>
      {view.stops.map((stop) => (
        <Stop key={stop.pauseId} stop={stop} view={view} clear={clear} isNamed={view.stops.length > 1} />
      ))}
      {onHold.length > 0 ? (
        <p>
          <b>On hold:</b> {listed(onHold)}.
        </p>
      ) : null}
    </section>
  );
}

function Stop({ stop, view, clear, isNamed }: { stop: StopView; view: StopsView; clear: FormAction; isNamed: boolean }) {
  const family = view.isAdult ? "you" : "a parent";
  return (
    <div className="flow">
      <p>
        <b>{stop.cause === "head-blow" ? INCIDENT_WORDS[stop.cause] : PART_WORDS[stop.part]}.</b> {stop.told.length > 0 ? `${listed(stop.told)} ${stop.told.length === 1 ? "was" : "were"} told. ` : ""}
        {stop.reportedBy} {stop.noted ? "wrote down what happened" : "said it"}.
      </p>
      {stop.noted ? (
        <p>
          “{stop.noted.words}”{stop.noted.firstAid ? <> Done at once: “{stop.noted.firstAid}”</> : null}
        </p>
      ) : null}
      {stop.cause === "head-blow" ? <HeadBlowCaution /> : null}
      <p>
        Swings begin again when a coach and {family} have both cleared it. Coach: {stop.isClearedByCoach ? "cleared" : "not yet"}. {view.isAdult ? "You" : "Parent"}:{" "}
        {stop.isClearedByFamily ? "cleared" : "not yet"}.
      </p>
      {view.canClear && !stop.isClearedByFamily && stop.cause === "head-blow" ? <ClearHeadBlow action={clear} playerId={view.playerId} pauseId={stop.pauseId} /> : null}
      {view.canClear && !stop.isClearedByFamily && stop.cause !== "head-blow" ? (
        <ActButton
          action={clear}
          fields={{ playerId: view.playerId, pauseId: stop.pauseId }}
          label={isNamed ? `${PART_WORDS[stop.part]}: swings may begin again, for the family` : undefined}
        >
          Swings may begin again, for the family
        </ActButton>
      ) : null}
    </div>
  );
}
