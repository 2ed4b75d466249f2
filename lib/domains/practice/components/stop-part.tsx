import type { Say } from "@/lib/core/words/say";
import type { FormAction } from "@/lib/domains/identity/components/act-button";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ClearHeadBlow } from "@/lib/domains/roster/components/clear-head-blow";
import { HeadBlowCaution } from "@/lib/domains/roster/components/head-blow";
import { INCIDENT_WORDS } from "@/lib/domains/roster/incidents/rules";
import type { StopsView, StopView } from "../view";
import { PART_WORDS, STOP_ID } from "./words";

interface StopPartProps {
  view: StopsView;
  /** Drills that wait. */
  onHold?: readonly string[];
  /** Clears the family's part; who may not clear is shown no button. */
  clear: FormAction;
  level?: "h1" | "h2";
  say: Say;
}

/** Swings stop: what to do now, who was told, what waits, what clears it. Calm, and no word about what an ache is. */
export function StopPart({ view, onHold = [], clear, level: Heading = "h2", say }: StopPartProps) {
  if (view.stops.length === 0) return null;
  return (
    <section id={STOP_ID} tabIndex={-1} className="trouble flow" aria-labelledby={`${STOP_ID}-title`}>
      <Heading id={`${STOP_ID}-title`} className="shout">
        {say("Stop. Tell an adult.")}
      </Heading>
      <p className="lead">{view.stops.every(({ noted }) => noted) ? say("Swings are paused now. Nobody is cross.") : say("Swings are paused now. It was right to say it. Nobody is cross.")}</p>
      <p>{say("A licensed clinician decides what an ache is. We do not guess.")}</p>
      {view.stops.map((stop) => (
        <Stop key={stop.pauseId} stop={stop} view={view} clear={clear} say={say} isNamed={view.stops.length > 1} />
      ))}
      {onHold.length > 0 ? (
        <p>
          <b>{say("On hold:")}</b> <span lang={say.langOf(...onHold)}>{onHoldWords(onHold, say)}</span>.
        </p>
      ) : null}
    </section>
  );
}

function Stop({ stop, view, clear, isNamed, say }: { stop: StopView; view: StopsView; clear: FormAction; isNamed: boolean; say: Say }) {
  return (
    <div className="flow">
      <p>
        <b>{say(stop.cause === "head-blow" ? INCIDENT_WORDS[stop.cause] : PART_WORDS[stop.part])}.</b> {stop.told.length > 0 ? `${say("{names} {count, plural, one {was told} other {were told}}.", { count: stop.told.length, names: say.list(stop.told) })} ` : ""}
        {stop.noted ? say("{who} wrote down what happened.", { who: stop.reportedBy }) : say("{who} said it.", { who: stop.reportedBy })}
      </p>
      {stop.noted ? (
        <p>
          <span lang={say.asWritten}>“{stop.noted.words}”</span>
          {stop.noted.firstAid ? (
            <>
              {" "}
              {say("Done at once:")} <span lang={say.asWritten}>“{stop.noted.firstAid}”</span>
            </>
          ) : null}
        </p>
      ) : null}
      {stop.cause === "head-blow" ? <HeadBlowCaution say={say} /> : null}
      <p>
        {view.isAdult ? say("Swings begin again when a coach and you have both cleared it.") : say("Swings begin again when a coach and a parent have both cleared it.")}{" "}
        {stop.isClearedByCoach ? say("Coach: cleared.") : say("Coach: not yet.")} {familyPart(stop, view.isAdult, say)}
      </p>
      {view.canClear && !stop.isClearedByFamily && stop.cause === "head-blow" ? <ClearHeadBlow action={clear} playerId={view.playerId} pauseId={stop.pauseId} /> : null}
      {view.canClear && !stop.isClearedByFamily && stop.cause !== "head-blow" ? (
        <ActButton
          action={clear}
          fields={{ playerId: view.playerId, pauseId: stop.pauseId }}
          label={isNamed ? say("{part}: swings may begin again, for the family", { part: say(PART_WORDS[stop.part]) }) : undefined}
        >
          {say("Swings may begin again, for the family")}
        </ActButton>
      ) : null}
    </div>
  );
}

function onHoldWords(drills: readonly string[], say: Say): string {
  const voice = say.around(...drills);
  return voice.list(drills.map(voice.told));
}

function familyPart({ isClearedByFamily }: StopView, isAdult: boolean, say: Say): string {
  if (isAdult) return isClearedByFamily ? say("You: cleared.") : say("You: not yet.");
  return isClearedByFamily ? say("Parent: cleared.") : say("Parent: not yet.");
}
