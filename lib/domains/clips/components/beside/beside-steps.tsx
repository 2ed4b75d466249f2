"use client";
import type { Dispatch } from "react";
import { eventKeys, sayClock } from "../../rules";
import { PlayRates } from "../play-rates";
import { eventNames } from "../words";
import type { BesideAction, BesideState } from "./beside-state";
import { eventTimes, type LinedClip } from "./lined-clip";

export interface BesideStepsProps {
  readonly state: BesideState;
  readonly dispatch: Dispatch<BesideAction>;
  readonly hasSeveral: boolean;
  readonly onCloser: () => void;
  readonly onWhole: () => void;
  readonly zoom: number;
}

/** Stepping, playing, locking, coming closer. */
export function BesideSteps({ state, dispatch, hasSeveral, onCloser, onWhole, zoom }: BesideStepsProps) {
  return (
    <div className="step">
      <button type="button" className="btn stride" aria-keyshortcuts="ArrowLeft" onClick={() => dispatch({ kind: "step", by: -1 })}>‹ One frame back</button>
      <button type="button" className="btn stride" aria-keyshortcuts="ArrowRight" onClick={() => dispatch({ kind: "step", by: 1 })}>One frame on ›</button>
      <PlayRates rate={state.rate} onRate={(rate) => dispatch({ kind: "rate", rate })} />
      <button type="button" className="btn main" aria-keyshortcuts="Space" onClick={() => dispatch({ kind: "play", isPlaying: !state.isPlaying })}>{state.isPlaying ? "Hold" : "Play"}</button>
      {hasSeveral ? (
        <label className="tick">
          <input type="checkbox" aria-keyshortcuts="K" checked={state.isLocked} onChange={(event) => dispatch({ kind: "lock", isLocked: event.target.checked })} /> Locked together
        </label>
      ) : null}
      <button type="button" className="btn" disabled={zoom >= 8} onClick={onCloser}>Closer</button>
      <button type="button" className="btn" disabled={zoom <= 1} onClick={onWhole}>Whole picture</button>
    </div>
  );
}

export interface EventJumpsProps {
  readonly lined: LinedClip;
  readonly frameIndex: number;
  readonly dispatch: Dispatch<BesideAction>;
}

/** The events of the clip in hand: each goes there. */
export function EventJumps({ lined, frameIndex, dispatch }: EventJumpsProps) {
  const times = eventTimes(lined);
  return (
    <ul className="evkeys" aria-label="Go to an event">
      {eventKeys.map(({ event, key }) => {
        const own = times.find((it) => it.event === event);
        const isHere = own !== undefined && lined.clip.events.some((it) => it.event === event && it.frameIndex === frameIndex);
        return (
          <li key={event} className={isHere ? "here" : undefined}>
            <button type="button" aria-keyshortcuts={key} onClick={() => dispatch({ kind: "go-event", event })}>
              <span className="key">{key}</span>
              <span>{eventNames[event]}</span>
              <span className="t">{own ? `${sayClock(own.seconds)}${isHere ? ", here" : ""}` : "not set"}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
