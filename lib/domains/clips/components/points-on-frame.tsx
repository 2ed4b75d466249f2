"use client";
import { useId, useState } from "react";
import { pointIds, type PointId, type PointView, type UnseenPointView } from "../view";
import { pointNames, startSentence } from "./words";

export interface PointsOnFrameProps {
  readonly points: readonly PointView[];
  readonly unseen: readonly UnseenPointView[];
  /** The point that was placed last, while it can still be taken back at once. */
  readonly justPlaced: PointId | null;
  /** The point that is asked for now. */
  readonly point: PointId | null;
  readonly onChoose: (point: PointId | null) => void;
  readonly onForget: (point: PointId) => void;
  /** Takes a suggestion as it lies. */
  readonly onTake: (point: PointView) => void;
}

/** How many points lie on the frame; which ones, when it is asked. */
export function PointsOnFrame({ points, unseen, justPlaced, point, onChoose, onForget, onTake }: PointsOnFrameProps) {
  const chooseId = useId();
  const [isOpen, setIsOpen] = useState(false);
  const placed = points.filter((it) => it.source === "coach");
  const suggested = points.filter((it) => it.source === "suggested");
  const inOrder = [...suggested, ...placed];
  const last = isOpen ? undefined : placed.find((it) => it.point === justPlaced);
  const row = (it: PointView) => <PointRow key={it.point} point={it.point} state={it.followedSdPx !== undefined ? "followed" : it.source === "coach" ? "placed" : "suggested"} onChoose={onChoose} onForget={onForget} onTake={() => onTake(it)} />;
  return (
    <section aria-label="Points on this frame">
      <h2>Points on this frame</h2>
      {last ? <ul className="rows points">{row(last)}</ul> : null}
      <details className="fold" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
        <summary>
          {countWords(placed.length, "placed")}, {suggested.length} suggested{unseen.length > 0 ? `, ${unseen.length} cannot be seen` : ""}
        </summary>
        {isOpen ? (
          <>
            <ul className="rows points">
              {inOrder.map(row)}
              {unseen.map((it) => (
                <PointRow key={it.point} point={it.point} state="not-visible" onChoose={onChoose} onForget={onForget} />
              ))}
            </ul>
            <div className="field">
              <label htmlFor={chooseId}>Another point</label>
              <select id={chooseId} value={point ?? ""} onChange={(event) => onChoose(pointIds.find((it) => it === event.target.value) ?? null)}>
                <option value="">As asked</option>
                {pointIds.map((it) => (
                  <option key={it} value={it}>{startSentence(pointNames[it])}</option>
                ))}
              </select>
            </div>
          </>
        ) : null}
      </details>
    </section>
  );
}

function countWords(count: number, word: string): string {
  return `${count} ${count === 1 ? "point" : "points"} ${word}`;
}

interface PointRowProps {
  readonly point: PointId;
  readonly state: "placed" | "followed" | "suggested" | "not-visible";
  readonly onChoose: (point: PointId) => void;
  readonly onForget: (point: PointId) => void;
  readonly onTake?: () => void;
}

const stateWords = { placed: "placed", followed: "followed", suggested: "suggested", "not-visible": "cannot be seen" } as const;

/** One point: its name moves it, the last button takes it away. */
function PointRow({ point, state, onChoose, onForget, onTake }: PointRowProps) {
  const name = pointNames[point];
  const isUnseen = state === "not-visible";
  return (
    <li data-listed={point}>
      <button type="button" className="btn plain" aria-label={isUnseen ? `Place the ${name}` : `Move the ${name}`} onClick={() => onChoose(point)}>{startSentence(name)}</button>
      <span className={`state ${state}`}>{stateWords[state]}</span>
      {state === "suggested" ? (
        <button type="button" className="btn plain" aria-label={`Take the ${name} as suggested`} onClick={onTake}>Take</button>
      ) : (
        <button type="button" className="btn plain" aria-label={isUnseen ? `Take back: ${name} cannot be seen` : `Remove the ${name}`} onClick={() => onForget(point)}>{isUnseen ? "Take back" : "Remove"}</button>
      )}
    </li>
  );
}
