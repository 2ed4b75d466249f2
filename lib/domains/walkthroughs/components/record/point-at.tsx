"use client";
import { useId } from "react";
import type { Called } from "../../list/schema";
import type { TalkPoints } from "../../view";
import { sightWords } from "../words";

interface PointAtProps {
  readonly points: TalkPoints;
  readonly called: Called | null;
  readonly onCall: (called: Called | null) => void;
}

type Kind = "fault" | "checkpoint" | "drill";

/** What the talk is about now: each choice begins a chapter. What was called on these swings is one press away. */
export function PointAt({ points, called, onCall }: PointAtProps) {
  const id = useId();
  const lists: Readonly<Record<Kind, readonly { readonly id: string; readonly name: string }[]>> = { fault: points.faults, checkpoint: points.checkpoints, drill: points.drills };
  const onChoose = (value: string) => {
    const [kind = "", recordId = ""] = value.split(" ");
    const record = Object.hasOwn(lists, kind) ? lists[kind as Kind].find((it) => it.id === recordId) : undefined;
    onCall(record ? { kind: kind as Kind, id: record.id, name: record.name } : null);
  };
  const near = points.faults.filter(({ sight }) => sight !== null).slice(0, 6);
  const isCalled = (recordId: string) => called?.kind === "fault" && called.id === recordId;
  return (
    <section aria-label="Point at">
      <h2>Point at</h2>
      {near.length > 0 ? (
        <ul className="plain-list">
          {near.map((it) => (
            <li key={it.id}>
              <button type="button" className="btn wide" aria-pressed={isCalled(it.id)} onClick={() => onCall(isCalled(it.id) ? null : { kind: "fault", id: it.id, name: it.name })}>
                {it.name}{it.sight ? `, ${sightWords[it.sight]}` : ""}
              </button>
            </li>
          ))}
        </ul>
      ) : null}
      <div className="field">
        <label htmlFor={id}>What the talk is about now</label>
        <select id={id} value={called && called.kind !== "event" ? `${called.kind} ${called.id}` : ""} onChange={(event) => onChoose(event.target.value)}>
          <option value="">Nothing of the library</option>
          <optgroup label="Faults">{points.faults.map((it) => <option key={it.id} value={`fault ${it.id}`}>{it.name}</option>)}</optgroup>
          <optgroup label="Checkpoints">{points.checkpoints.map((it) => <option key={it.id} value={`checkpoint ${it.id}`}>{it.name}</option>)}</optgroup>
          <optgroup label="Drills">{points.drills.map((it) => <option key={it.id} value={`drill ${it.id}`}>{it.name}</option>)}</optgroup>
        </select>
        <p className="hint">Each begins a chapter of the talk.</p>
      </div>
    </section>
  );
}
