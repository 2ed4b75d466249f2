"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";
import { noteBall } from "../tally/actions";
import type { Choice, TallyView } from "../tally/view";
import { words } from "./words";

const PITCH = ["task", "swingKind", "pitchSpeed", "pitchHeight", "pitchSide"] as const;
const BALL = ["height", "direction", "timing"] as const;
const MORE = ["spot", "curve"] as const;
const MET = ["hard", "weak", "miss", "took-strike", "took-ball"] as const;

interface BallFormProps {
  lists: TallyView["lists"];
  /** The pitch of the last ball. */
  last: TallyView["last"];
  given: Readonly<Record<string, string>>;
}

/** One ball a press: the pitch stays as it was, the ball starts anew; what is not chosen stays unknown. */
export function BallForm({ lists, last, given }: BallFormProps) {
  const [state, send] = useActionState(noteBall, IDLE);
  return (
    <form action={send} className="form">
      {Object.entries(given).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <details>
        <summary className="btn plain">
          {words.tally.pitch}: {PITCH.map((name) => lists[name].find(({ value }) => value === last[name])?.label ?? "").filter(Boolean).join(", ").toLowerCase()}
        </summary>
        {PITCH.map((name) => (
          <Pills key={name} name={name} options={lists[name]} chosen={last[name]} />
        ))}
      </details>
      {BALL.map((name) => (
        <Pills key={name} name={name} options={lists[name]} chosen="" mayBeUnknown />
      ))}
      <details>
        <summary className="btn plain">{words.tally.more}</summary>
        {MORE.map((name) => (
          <Pills key={name} name={name} options={lists[name]} chosen="" mayBeUnknown />
        ))}
      </details>
      <p className="small">{words.tally.how}</p>
      <div className="bar-line" role="group" aria-label={words.tally.how}>
        {MET.map((one) => (
          <button key={one} type="submit" className="btn" name="press" value={one}>
            {words.tally[one]}
          </button>
        ))}
      </div>
      {state.status === "refused" ? <FormStatus state={state} /> : <p role="status">{state.status === "done" ? state.message : ""}</p>}
    </form>
  );
}

function Pills({ name, options, chosen, mayBeUnknown }: { name: keyof TallyView["lists"]; options: readonly Choice[]; chosen: string; mayBeUnknown?: boolean }) {
  const all = mayBeUnknown ? [...options, { value: "", label: words.tally.unknown }] : options;
  return (
    <fieldset className="field">
      <legend>{words.tally[name]}</legend>
      <div className="pick wide">
        {all.map(({ value, label }) => (
          <label key={value}>
            <input type="radio" name={name} value={value} defaultChecked={value === chosen} />
            {label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
