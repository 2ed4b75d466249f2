"use client";
import { useRef, type KeyboardEvent, type PointerEvent } from "react";
import { insidePicture, type NextPoint, type Size, type Spot } from "../rules";
import type { PointId } from "../view";
import { arrows } from "./arrow-keys";
import type { FrameSource } from "./frame-source-type";
import { Loupe } from "./loupe";
import { eventNames, pointNames } from "./words";

export interface PointPanelProps {
  /** Null while the pictures are being fetched. */
  readonly source: FrameSource | null;
  readonly frameIndex: number;
  readonly picture: Size;
  /** The point to place on this frame, null when none is asked for here. */
  readonly point: PointId | null;
  /** The next point that waits on another frame. */
  readonly elsewhere: NextPoint | null;
  readonly waitingCount: number;
  /** Points are wanted frame by frame too. */
  readonly hasRuns: boolean;
  /** What else is to be done first on this clip, a sentence. */
  readonly nextStep: string | null;
  readonly cross: Spot;
  readonly onCross: (at: Spot) => void;
  readonly onPlace: () => void;
  readonly onUnseen: () => void;
  readonly onGo: (frameIndex: number) => void;
}

const loupeScale = 5;

/** Asks for the next point in words and shows it under the glass; one line when nothing waits. */
export function PointPanel(props: PointPanelProps) {
  const { point, elsewhere, waitingCount, hasRuns, cross, nextStep } = props;
  const waits = waitingCount === 0 ? "" : waitingCount === 1 ? " One point waits." : ` ${waitingCount} points wait.`;
  return (
    <section aria-label="Place a point">
      {point ? (
        <>
          <h2>Place the {pointNames[point]}</h2>
          <Glass {...props} point={point} />
          <p className="note">Drag the picture under the cross, or arrow keys: one pixel a press, ten with shift. Enter places.{waits}</p>
          <div className="bar-line">
            <button type="button" className="btn main" onClick={props.onPlace}>Place here</button>
            <button type="button" className="btn" onClick={props.onUnseen}>Cannot be seen</button>
          </div>
        </>
      ) : elsewhere ? (
        <>
          <h2>Next: the {pointNames[elsewhere.point]} at {eventNames[elsewhere.event].toLowerCase()}</h2>
          <div className="bar-line">
            <button type="button" className="btn main" onClick={() => props.onGo(elsewhere.frameIndex)}>Go to {eventNames[elsewhere.event].toLowerCase()}</button>
            <span className="note">{waits}</span>
          </div>
        </>
      ) : nextStep === null ? (
        <p className="small">{hasRuns ? "Every point that is asked for at the events is placed." : "Every point that the readings need is placed."}</p>
      ) : (
        <h2>What to do next</h2>
      )}
      {nextStep === null ? null : <p className="small">{nextStep}</p>}
      <p className="hush" role="status">{point ? `Place the ${pointNames[point]}. The cross is ${Math.round(cross.x)} across, ${Math.round(cross.y)} down.` : ""}</p>
    </section>
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
      {source ? <Loupe source={source} frameIndex={frameIndex} picture={picture} at={cross} scale={loupeScale} /> : null}
    </div>
  );
}
