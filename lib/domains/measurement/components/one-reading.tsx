"use client";

import { State } from "@/lib/ui/state";
import { eventNames } from "@/lib/domains/clips/components/words";
import type { EventView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import { namedWords, readingWords } from "@/lib/measure/reading-words";
import { effectOf, TRUST_REASONS } from "@/lib/measure/trust-reasons";
import { groupOf, limitWords } from "./groups";
import { numberOf } from "./number-of";
import { takenAt } from "./taken-at";
import { measurementWords as words } from "./words";

interface OneReadingProps {
  readonly reading: Reading;
  readonly name: string;
  readonly events: readonly EventView[];
  readonly onGo: (frameIndex: number) => void;
}

/** One reading: words in the line. Opening it shows the frame it was taken at, its number with the doubt, and what to keep in mind. */
export function OneReading({ reading, name, events, onGo }: OneReadingProps) {
  const { verdict, size } = reading;
  const group = groupOf(reading);
  const said = readingWords(reading);
  const frames = takenAt(reading, events);
  const last = frames[frames.length - 1];
  const grey = group === "not-sure" ? reading.reasons.find(({ id }) => effectOf(id) === "grey") : undefined;
  const isSpeaking = group === "talk-about" || group === "watch";
  const named = reading.named.flatMap((it) => {
    const text = namedWords(it);
    return text === null ? [] : [{ id: it.id, name: it.name, text }];
  });
  return (
    <details
      className={`reading ${group}`}
      onToggle={(event) => {
        if (event.currentTarget.open && last) onGo(last.frameIndex);
      }}
    >
      <summary>
        <span className="call">
          {verdict && !reading.isGrey ? <State is={verdict} /> : <span className="quiet">{words.short[group]}</span>}
          {isSpeaking && size ? <State is={size} className="amount" /> : null}
        </span>
        <span className="what">
          {name}
          {grey ? <span className="why">{TRUST_REASONS[grey.id].words}</span> : null}
        </span>
      </summary>
      <div className="more">
        <p className="number">{[numberOf(reading) ?? said.words, limitWords(reading)].filter(Boolean).join("; ")}</p>
        {named.map((it) => (
          <p key={it.id}>
            {it.name}: {it.text}
          </p>
        ))}
        {said.why.map((why) => (
          <p key={why} className="quiet">
            {why}.
          </p>
        ))}
        {frames.length > 0 ? (
          <p className="bar-line">
            {frames.map((it) => (
              <button key={it.event} type="button" className="btn" onClick={() => onGo(it.frameIndex)}>
                {it.event === "window" ? words.lookHere : words.lookAt(eventNames[it.event].toLowerCase())}
              </button>
            ))}
          </p>
        ) : null}
      </div>
    </details>
  );
}
