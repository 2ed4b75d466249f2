"use client";
import { useState, type RefObject } from "react";
import { clockSecondsOf, contactTickOf, placementOf, sayClock, type Placement, type Size, type Spot } from "../rules";
import type { ClipView, MarkView, PointId, PointView } from "../view";
import type { FollowedSpot } from "./following/use-following";
import { FrameCanvas } from "./frame-canvas";
import type { Change } from "./kept";
import { Loupe } from "./loupe";
import { Overlay } from "./overlay";
import type { BetweenPoint } from "./points/between-view";
import type { SourceStatus } from "./use-frame-source";
import type { PlateTaps } from "./use-plate-taps";
import { useStageGestures } from "./use-stage-gestures";
import { lookIn, type ViewerAction, type ViewerState } from "./viewer-state";

export interface StageProps {
  readonly stageRef: RefObject<HTMLDivElement | null>;
  readonly clip: ClipView;
  readonly caption: string;
  readonly status: SourceStatus;
  readonly box: Size | null;
  readonly state: ViewerState;
  readonly dispatch: (action: ViewerAction) => void;
  readonly points: readonly PointView[];
  /** Points of the frame that are worked out between placed ones. */
  readonly between?: readonly BetweenPoint[];
  /** Places of the frame that were followed and wait to be taken. */
  readonly followed?: readonly FollowedSpot[];
  readonly marks: readonly MarkView[];
  readonly askedPoint: PointId | null;
  /** Where the cross stands, null when it is not shown. */
  readonly cross: Spot | null;
  /** Home plate while its corners are being marked. */
  readonly taps?: PlateTaps;
  readonly commit: (change: Change) => void;
  readonly newMark: (shape: MarkView["shape"]) => Change;
}

const nowhere: Placement = { scale: 1, dx: 0, dy: 0 };
const glassScale = 5;

/** The picture with what lies on it; mouse, pen and finger work here. */
export function Stage(props: StageProps) {
  const { stageRef, clip, caption, status, box, state, points, marks, cross } = props;
  const placement = box ? placementOf(lookIn(state, box), state.picture, box) : nowhere;
  const gestures = useStageGestures({ ...props, placement, box: box ?? state.picture, abilities: clip.abilities });
  const zero = contactTickOf(state.kept.events);
  // Words and points are those of the picture that is there: for a moment it may still be the one before.
  const [painted, setPainted] = useState<number | null>(null);
  const shown = painted ?? state.frameIndex;
  const isThere = shown === state.frameIndex;
  const when = `${sayClock(clockSecondsOf(clip, shown, zero))} s`;
  const label = `Frame ${shown + 1} of ${state.frameCount}, ${when} ${zero === null ? "from the first frame" : "from contact"}`;
  const underGlass = state.gesture.kind === "point" ? state.gesture.at : state.gesture.kind === "cross" ? cross : null;
  const isDrawing = state.tool !== null || clip.abilities.canMeasure;
  return (
    <div className="pair single">
      <div
        ref={stageRef} className="frame" role="group" tabIndex={0} aria-label={`${caption}. Arrow keys step one frame, with shift ten.`}
        style={{ touchAction: "none", cursor: isDrawing ? "crosshair" : "grab", userSelect: "none" }}
        {...(status.kind === "ready" ? gestures : {})}
      >
        {status.kind === "ready" && box ? (
          <>
            <FrameCanvas source={status.source} frameIndex={state.frameIndex} travel={state.travel} isPlaying={state.isPlaying} placement={placement} picture={state.picture} box={box} label={label} onShown={setPainted} />
            <Overlay box={box} placement={placement} points={isThere ? points : []} marks={isThere ? marks : []} gesture={state.gesture} editedMark={state.editedMark} cross={cross} corners={props.taps?.corners} between={isThere ? props.between : []} followed={isThere ? props.followed : []} />
            {underGlass ? (
              <div
                className="loupe lifted"
                style={{ position: "absolute", top: 8, width: "min(42%, 220px)", zIndex: 2, pointerEvents: "none", ...(underGlass.x * placement.scale + placement.dx < box.width / 2 ? { right: 8 } : { left: 8 }) }}
              >
                <Loupe source={status.source} frameIndex={state.frameIndex} picture={state.picture} at={underGlass} scale={Math.max(glassScale, placement.scale * 2)} />
              </div>
            ) : null}
          </>
        ) : clip.posterUrl ? (
          <img src={clip.posterUrl} alt="" />
        ) : null}
        {status.kind === "loading" ? (
          <p className="fetching" role="status">Fetching the pictures{status.part > 0 ? `, ${Math.round(status.part * 100)} of 100` : ""}…</p>
        ) : null}
        <p className="cap">
          <span>{caption}</span>
        </p>
        <p className="at">{when}</p>
      </div>
    </div>
  );
}
