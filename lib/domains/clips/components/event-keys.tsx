"use client";
import { contactTickOf, eventKeys, eventSecondsOf, sayClock } from "../rules";
import type { ClipView, EventId, EventView } from "../view";
import { eventNames, viewNames } from "./words";

const notLinedUp = "not lined up";

export interface EventKeysProps {
  readonly clip: ClipView;
  readonly events: readonly EventView[];
  readonly frameIndex: number;
  readonly eventInHand: EventId | null;
  readonly onSet: (event: EventId) => void;
  readonly onGo: (event: EventId) => void;
  readonly onNudge: (by: -1 | 1) => void;
  readonly onClear: (event: EventId) => void;
}

/** Sets an event at the frame shown, by key or by thumb; below it what can be done with the event in hand. */
export function EventKeys({ clip, events, frameIndex, eventInHand, onSet, onGo, onNudge, onClear }: EventKeysProps) {
  const zero = contactTickOf(events);
  const say = (event: EventView) => {
    const seconds = eventSecondsOf(clip, event, zero);
    return seconds === null ? notLinedUp : sayClock(seconds);
  };
  const inHand = events.find((it) => it.event === eventInHand) ?? null;
  const { canMeasure } = clip.abilities;
  return (
    <>
      <ul className="evkeys" aria-label={canMeasure ? "Set an event at the frame shown" : "Go to an event"}>
        {eventKeys.map(({ event, key }) => {
          const set = events.find((it) => it.event === event) ?? null;
          const isHere = set?.frameIndex === frameIndex;
          const when = set === null ? "not set" : `${say(set)}${set.source === "suggested" ? " suggested" : ""}${set.elsewhere ? `, ${viewNames[set.elsewhere.view]} clip` : ""}`;
          const where = isHere ? ", here" : "";
          const name = eventNames[event];
          const label = canMeasure ? `Set ${name.toLowerCase()} here, key ${key}; ${when}${where}` : `Go to ${name.toLowerCase()}; ${when}${where}`;
          return (
            <li key={event} className={isHere ? "here" : undefined}>
              <button type="button" data-event={event} aria-label={label} disabled={!canMeasure && set?.frameIndex == null} onClick={() => (canMeasure ? onSet(event) : onGo(event))}>
                <span className="key">{key}</span>
                <span>{name}</span>
                <span className="t">{when}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {canMeasure && inHand && inHand.frameIndex !== null ? (
        <div className="bar-line in-hand" role="group" aria-label={`${eventNames[inHand.event]} in hand`}>
          <span className="small">
            {eventNames[inHand.event]} at {say(inHand)} s{inHand.elsewhere ? `, set on the ${viewNames[inHand.elsewhere.view]} clip` : ""}
          </span>
          <span className="push" />
          {inHand.frameIndex !== frameIndex ? <button type="button" className="btn" onClick={() => onGo(inHand.event)}>Go to it</button> : null}
          <button type="button" className="btn" aria-keyshortcuts="[" onClick={() => onNudge(-1)}>One frame earlier</button>
          <button type="button" className="btn" aria-keyshortcuts="]" onClick={() => onNudge(1)}>One frame later</button>
          <button type="button" className="btn" onClick={() => onClear(inHand.event)}>Clear {eventNames[inHand.event].toLowerCase()}</button>
        </div>
      ) : null}
    </>
  );
}
