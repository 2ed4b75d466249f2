"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Cut } from "@/lib/ui/cut";
import { FormStatus } from "@/lib/ui/form-status";
import { State } from "@/lib/ui/state";
import { callFault } from "../actions";
import type { CallRowView, ReadingBesideView } from "../view";
import { SeenCount } from "./seen-count";
import { words } from "./words";

const SIGHTS = ["seen", "not-seen", "not-visible"] as const;

/** A row with the address of its still. */
export interface CallItem extends CallRowView {
  readonly stillUrl: string | null;
}

interface CallListProps {
  items: readonly CallItem[];
  /** What every call of the list says beside its own: whose swing it is. */
  given: Readonly<Record<string, string>>;
}

/**
 * Things that can be seen in a swing, each with the coach's three answers. One form holds them all: the button pressed
 * says which thing and what, so that the page stays light and works without script.
 */
export function CallList({ items, given }: CallListProps) {
  const [state, send] = useActionState(callFault, IDLE);
  return (
    <form action={send}>
      {Object.entries(given).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {state.status === "refused" ? <FormStatus state={state} /> : <p className="hush" role="status">{state.status === "done" ? state.message : ""}</p>}
      <ul className="obs">
        {items.map((item) => (
          <CallRow key={item.faultId} item={item} />
        ))}
      </ul>
    </form>
  );
}

function CallRow({ item }: { item: CallItem }) {
  const { faultId, name, still, stillUrl, ownCall, otherCalls, count, proposal } = item;
  const pressOf = (state: string) => [faultId, state, ...(still ? [still.clipId, still.frameIndex] : [])].join(" ");
  return (
    <li className={stillUrl ? undefined : "no-still"} id={`fault-${faultId}`}>
      {stillUrl ? <Cut src={stillUrl} alt="" /> : null}
      <div>
        <b>{name}</b>
        <Beside item={item} />
        {count.judged + count.notVisible > 1 ? (
          <p className="small">
            <SeenCount {...count} />
          </p>
        ) : null}
        {otherCalls.map((call, index) => (
          <p key={index} className="note">
            {words.call.other(call.by, words.states[call.state])}
          </p>
        ))}
        <div className="bar-line">
          <div className="pick" role="group" aria-label={words.call.group(name)}>
            {SIGHTS.map((state) => (
              <button key={state} type="submit" name="press" value={pressOf(state)} aria-pressed={ownCall === state}>
                <State is={state} />
              </button>
            ))}
          </div>
          {ownCall ? <Press value={pressOf("take-back")} text={words.call.takeBack} about={name} /> : null}
          {proposal && !ownCall ? <Press value={pressOf("as-read")} text={words.call.agree} about={`${name}, ${words.states[proposal]}`} /> : null}
        </div>
      </div>
    </li>
  );
}

function Press({ value, text, about }: { value: string; text: string; about: string }) {
  return (
    <button type="submit" className="btn plain" name="press" value={value}>
      {text}
      <span className="hush">: {about}</span>
    </button>
  );
}

/** What the weightiest reading says, or what it looks like; every reading with numbers and doubts behind one press. */
function Beside({ item: { name, look, readings, proposal } }: { item: CallItem }) {
  const speaking = readings.find(({ verdict }) => verdict !== null);
  const said = speaking ? `${speaking.name}: ${speaking.words.toLowerCase()}` : look;
  if (readings.length === 0) return <p className="note">{said}</p>;
  return (
    <details>
      <summary className="note" style={{ paddingBlock: ".3rem", cursor: "pointer" }} title={words.call.numbers(name)}>
        {said}
        {proposal ? `; ${words.call.propose(words.states[proposal])}` : null}
      </summary>
      <dl className="words">
        {readings.map((reading) => (
          <ReadingRow key={reading.checkpointId} reading={reading} />
        ))}
      </dl>
    </details>
  );
}

function ReadingRow({ reading }: { reading: ReadingBesideView }) {
  return (
    <div className="word-row">
      <dt>{reading.name}</dt>
      <dd>
        {reading.verdict ? <State is={reading.verdict}>{reading.words.toLowerCase()}</State> : reading.words}
        {reading.number ? `, ${reading.number}` : null}
        {reading.why.map((why) => (
          <span key={why} className="note">
            {why}
          </span>
        ))}
      </dd>
    </div>
  );
}
