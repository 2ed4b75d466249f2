"use client";
import { toScreen, type Placement, type Size, type Spot } from "../rules";
import type { MarkView, PointId, PointView } from "../view";
import { drawnShape, markHandles, type Gesture } from "./gesture";
import { MarkDrawing } from "./mark-drawing";
import type { FollowedSpot } from "./following/use-following";
import type { BetweenPoint } from "./points/between-view";
import { PlateCorners } from "./plate-corners";
import { figureLines } from "./words";

export interface OverlayProps {
  readonly box: Size;
  readonly placement: Placement;
  readonly points: readonly PointView[];
  readonly marks: readonly MarkView[];
  readonly gesture: Gesture;
  readonly editedMark: string | null;
  /** The cross of the magnifier, null when nothing is asked for. */
  readonly cross: Spot | null;
  /** Corners of home plate marked so far. */
  readonly corners?: readonly Spot[];
  /** Points worked out between placed frames. */
  readonly between?: readonly BetweenPoint[];
  /** Places that were followed through the pictures and wait to be taken, with their SD in picture pixels. */
  readonly followed?: readonly FollowedSpot[];
}

/** Points, figure and marks over the frame, drawn in screen pixels so that lines keep their thickness at every zoom. */
export function Overlay({ box, placement, points, marks, gesture, editedMark, cross, corners, between = [], followed = [] }: OverlayProps) {
  const at = (spot: Spot) => toScreen(placement, spot);
  const moved = points.map((it) => (gesture.kind === "point" && it.point === gesture.point ? { frameIndex: it.frameIndex, point: it.point, ...gesture.at, source: "coach" as const } : it));
  const spotOf = (point: PointId) => moved.find((it) => it.point === point);
  const lines = figureLines.flatMap(([from, to]) => {
    const a = spotOf(from);
    const b = spotOf(to);
    return a && b ? [`M${path(at(a))}L${path(at(b))}`] : [];
  });
  const figure = lines.join("");
  const shown = marks.map((it) => (gesture.kind === "mark" && gesture.id === it.id ? { ...it, shape: gesture.at } : it));
  const edited = shown.find((it) => it.id === editedMark) ?? null;
  return (
    <svg className="ov" viewBox={`0 0 ${box.width} ${box.height}`} aria-hidden="true" style={{ position: "absolute", inset: 0, width: "100%", height: "100%", pointerEvents: "none" }}>
      <g>
        <path className="limb case" d={figure} />
        <path className="limb core" d={figure} />
        {between.map((it) => (
          <BetweenDrawing key={it.point} point={it.point} at={at(it)} />
        ))}
        {followed.map((it) => (
          <FollowedDrawing key={it.point} point={it.point} at={at(it)} reach={1.96 * it.sdPx * placement.scale} />
        ))}
        {moved.map((it) => (
          <PointDrawing key={it.point} point={it} at={at(it)} />
        ))}
        {shown.map((it) => (
          <MarkDrawing key={it.id} id={it.id} shape={it.shape} placement={placement} />
        ))}
        {gesture.kind === "draw" ? <MarkDrawing id="drawing" shape={drawnShape(gesture)} placement={placement} /> : null}
        {edited ? markHandles(edited.shape).map(({ handle, at: spot }) => <HandleDrawing key={handle} handle={handle} at={at(spot)} />) : null}
        {gesture.kind === "write" ? <CrossDrawing at={at(gesture.at)} /> : null}
        {corners ? <g className="plate-corners"><PlateCorners corners={corners} toScreen={at} /></g> : null}
        {cross ? <CrossDrawing at={at(cross)} /> : null}
      </g>
    </svg>
  );
}

function path(spot: Spot): string {
  return `${spot.x.toFixed(1)} ${spot.y.toFixed(1)}`;
}

/** Placed by a person: a ring with a dot; followed and taken: a triangle with a dot. Suggested: a dotted ring, no colour. */
function PointDrawing({ point, at }: { readonly point: PointView; readonly at: Spot }) {
  if (point.followedSdPx !== undefined)
    return (
      <g data-point={point.point} data-source="followed">
        <path className="point-placed" d={triangle(at, 8)} />
        <circle cx={at.x} cy={at.y} r={1.6} fill="var(--mark-case)" />
      </g>
    );
  if (point.source === "coach")
    return (
      <g data-point={point.point} data-source="coach">
        <circle className="point-placed" cx={at.x} cy={at.y} r={6.5} />
        <circle cx={at.x} cy={at.y} r={1.6} fill="var(--mark-case)" />
      </g>
    );
  return (
    <g data-point={point.point} data-source="suggested">
      <circle className="point-suggested case" cx={at.x} cy={at.y} r={10} />
      <circle className="point-suggested core" cx={at.x} cy={at.y} r={10} />
    </g>
  );
}

/** Worked out between placed frames: an empty square on its corner. */
function BetweenDrawing({ point, at }: { readonly point: PointId; readonly at: Spot }) {
  const d = `M${at.x} ${at.y - 7}L${at.x + 7} ${at.y}L${at.x} ${at.y + 7}L${at.x - 7} ${at.y}Z`;
  return (
    <g data-point={point} data-source="between">
      <path className="point-between case" d={d} />
      <path className="point-between core" d={d} />
    </g>
  );
}

/** Followed through the pictures, not taken yet: an empty triangle within the circle in which it lies in 95 of 100, as far as that is to be seen. */
function FollowedDrawing({ point, at, reach }: { readonly point: PointId; readonly at: Spot; readonly reach: number }) {
  const d = triangle(at, 9);
  return (
    <g data-point={point} data-source="following">
      {reach > 12 ? (
        <>
          <circle className="point-suggested case" cx={at.x} cy={at.y} r={reach} />
          <circle className="point-suggested core" cx={at.x} cy={at.y} r={reach} />
        </>
      ) : null}
      <path className="point-between case" d={d} />
      <path className="point-between core" d={d} />
    </g>
  );
}

/** A triangle on its base; its middle is the place. */
function triangle({ x, y }: Spot, size: number): string {
  return `M${x} ${y - size}L${x + 0.87 * size} ${y + size / 2}L${x - 0.87 * size} ${y + size / 2}Z`;
}

function HandleDrawing({ handle, at }: { readonly handle: string; readonly at: Spot }) {
  return (
    <g data-handle={handle}>
      <rect x={at.x - 6} y={at.y - 6} width={12} height={12} fill="var(--mark)" stroke="var(--mark-case)" strokeWidth={3} />
    </g>
  );
}

/** Open brackets, so that the place itself stays bare. */
function CrossDrawing({ at }: { readonly at: Spot }) {
  const d = `M${at.x - 15} ${at.y - 8}v-7h7M${at.x + 8} ${at.y - 15}h7v7M${at.x + 15} ${at.y + 8}v7h-7M${at.x - 8} ${at.y + 15}h-7v-7`;
  return (
    <g className="in-hand" data-cross="">
      <path className="case" d={d} />
      <path className="core" d={d} />
    </g>
  );
}
