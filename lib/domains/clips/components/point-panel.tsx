"use client";
import { useId, useRef, type KeyboardEvent, type PointerEvent } from "react";
import { insidePicture, type NextPoint, type Size, type Spot } from "../rules";
import { pointIds, type PointId, type PointView, type UnseenPointView } from "../view";
import type { FrameSource } from "./frame-source-type";
import { Loupe } from "./loupe";
import { eventNames, pointNames, startSentence } from "./words";

export interface PointPanelProps {
  readonly source: FrameSource;
  readonly frameIndex: number;
  readonly picture: Size;
  /** The point to place on this frame, null when none is asked for here. */
  readonly point: PointId | null;
  /** The next point that waits on another frame. */
  readonly elsewhere: NextPoint | null;
  readonly waitingCount: number;
  readonly cross: Spot;
  readonly points: readonly PointView[];
  readonly unseen: readonly UnseenPointView[];
  readonly hasEvents: boolean;
  readonly onCross: (at: Spot) => void;
  readonly onChoose: (point: PointId | null) => void;
  readonly onPlace: () => void;
  readonly onUnseen: () => void;
  readonly onForget: (point: PointId) => void;
  readonly onGo: (frameIndex: number) => void;
}

const loupeScale = 5;
const arrows: Readonly<Record<string, Spot>> = { ArrowLeft: { x: -1, y: 0 }, ArrowRight: { x: 1, y: 0 }, ArrowUp: { x: 0, y: -1 }, ArrowDown: { x: 0, y: 1 } };

/** Asks for the next point in words, shows it under the glass, and lists what is on the frame. */
export function PointPanel(props: PointPanelProps) {
  const { point, elsewhere, waitingCount, cross, points, unseen } = props;
  const chooseId = useId();
  const placed = points.filter((it) => it.source === "coach");
  const suggested = points.filter((it) => it.source === "suggested");
  return (
    <>
      <section aria-label="Place a point">
        <h2>{point ? `Place the ${pointNames[point]}` : elsewhere ? `Next: the ${pointNames[elsewhere.point]} at ${eventNames[elsewhere.event].toLowerCase()}` : "Points"}</h2>
        {point ? (
          <>
            <Glass {...props} point={point} />
            <p className="note" style={{ margin: ".5rem 0" }}>Drag the picture under the cross, or arrow keys: one pixel a press, ten with shift. Enter places.</p>
            <div className="bar-line" style={{ padding: 0 }}>
              <button type="button" className="btn main" onClick={props.onPlace}>Place here</button>
              <button type="button" className="btn" onClick={props.onUnseen}>Cannot be seen</button>
            </div>
          </>
        ) : elsewhere ? (
          <button type="button" className="btn main" onClick={() => props.onGo(elsewhere.frameIndex)}>Go to {eventNames[elsewhere.event].toLowerCase()}</button>
        ) : (
          <p className="note">{props.hasEvents ? "Every point that the readings need is placed." : "Set events first: points are asked for on their frames."}</p>
        )}
        <p className="note" style={{ margin: ".5rem 0" }}>{waitingCount === 0 ? "" : waitingCount === 1 ? "One point waits." : `${waitingCount} points wait.`}</p>
        <p className="hush" role="status">{point ? `Place the ${pointNames[point]}. The cross is ${Math.round(cross.x)} across, ${Math.round(cross.y)} down.` : ""}</p>
        <div className="field">
          <label htmlFor={chooseId}>Another point</label>
          <select id={chooseId} value={point ?? ""} onChange={(event) => props.onChoose(pointIds.find((it) => it === event.target.value) ?? null)}>
            <option value="">As asked</option>
            {pointIds.map((it) => (
              <option key={it} value={it}>{startSentence(pointNames[it])}</option>
            ))}
          </select>
        </div>
      </section>
      <section aria-label="Points on this frame">
        <h2>Points on this frame</h2>
        {placed.length + suggested.length + unseen.length === 0 ? <p className="note">None yet.</p> : null}
        <ul className="rows">
          {[...suggested, ...placed].map((it) => (
            <li key={it.point} data-listed={it.point}>
              <button type="button" className="btn plain" aria-label={`Move the ${pointNames[it.point]}`} onClick={() => props.onChoose(it.point)}>{startSentence(pointNames[it.point])}</button>
              <span className={it.source === "coach" ? "state placed" : "state suggested"}>{it.source === "coach" ? "placed" : "suggested"}</span>
              {it.source === "coach" ? <button type="button" className="btn plain" aria-label={`Remove the ${pointNames[it.point]}`} onClick={() => props.onForget(it.point)}>Remove</button> : null}
            </li>
          ))}
          {unseen.map((it) => (
            <li key={it.point} data-listed={it.point}>
              <button type="button" className="btn plain" aria-label={`Place the ${pointNames[it.point]}`} onClick={() => props.onChoose(it.point)}>{startSentence(pointNames[it.point])}</button>
              <span className="state not-visible">cannot be seen</span>
              <button type="button" className="btn plain" aria-label={`Take back: ${pointNames[it.point]} cannot be seen`} onClick={() => props.onForget(it.point)}>Take back</button>
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}

/** The glass by hand or by key: dragging moves the picture under the cross, so the cross goes the other way. */
function Glass({ source, frameIndex, picture, point, cross, onCross, onPlace }: PointPanelProps & { readonly point: PointId }) {
  const gripRef = useRef<{ readonly x: number; readonly y: number; readonly cross: Spot } | null>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    const by = arrows[event.key];
    if (by) {
      const far = event.shiftKey ? 10 : 1;
      onCross(insidePicture({ x: cross.x + by.x * far, y: cross.y + by.y * far }, picture));
    } else if (event.key === "Enter") onPlace();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const onPointerMove = (event: PointerEvent) => {
    const grip = gripRef.current;
    if (grip) onCross(insidePicture({ x: grip.cross.x - (event.clientX - grip.x) / loupeScale, y: grip.cross.y - (event.clientY - grip.y) / loupeScale }, picture));
  };
  const letGo = () => {
    gripRef.current = null;
  };
  return (
    <div
      className="loupe lifted" role="group" tabIndex={0} aria-label={`Magnifier: the ${pointNames[point]}, five times as large`}
      style={{ touchAction: "none", cursor: "grab" }} onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        gripRef.current = { x: event.clientX, y: event.clientY, cross };
      }}
      onPointerMove={onPointerMove} onPointerUp={letGo} onPointerCancel={letGo}
    >
      <Loupe source={source} frameIndex={frameIndex} picture={picture} at={cross} scale={loupeScale} />
    </div>
  );
}
