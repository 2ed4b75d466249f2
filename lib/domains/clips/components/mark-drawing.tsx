"use client";
import { useLayoutEffect, useRef, useState } from "react";
import { toScreen, type Placement, type Spot } from "../rules";
import type { MarkShape } from "../view";
import { sayAngle, strokePath } from "./mark-strokes";

export interface MarkDrawingProps {
  readonly id: string;
  readonly shape: MarkShape;
  readonly placement: Placement;
}

/** A mark on the frame: white core in a plum casing, as thick at every zoom; words in a plum tag. */
export function MarkDrawing({ id, shape, placement }: MarkDrawingProps) {
  if (shape.kind === "words") return <WordsTag id={id} text={shape.text} at={toScreen(placement, shape)} />;
  return (
    <g className="mark" data-mark={id} data-kind={shape.kind}>
      <Stroke shape={shape} placement={placement} layer="case" />
      <Stroke shape={shape} placement={placement} layer="core" />
      {shape.kind === "angle" ? <WordsTag text={sayAngle(shape)} at={besideCorner(toScreen(placement, { x: shape.x2, y: shape.y2 }))} /> : null}
    </g>
  );
}

const besideCorner = ({ x, y }: Spot): Spot => ({ x: x + 12, y: y - 18 });

interface StrokeProps {
  readonly shape: Exclude<MarkShape, { kind: "words" }>;
  readonly placement: Placement;
  /** The casing lies under the core. */
  readonly layer: "case" | "core";
}

function Stroke({ shape, placement, layer }: StrokeProps) {
  if (shape.kind !== "ring") return <path className={layer} d={strokePath(shape, (spot) => toScreen(placement, spot))} />;
  const centre = toScreen(placement, { x: shape.cx, y: shape.cy });
  return <ellipse className={layer} cx={centre.x} cy={centre.y} rx={shape.rx * placement.scale} ry={shape.ry * placement.scale} />;
}

function WordsTag({ id, text, at }: { readonly id?: string; readonly text: string; readonly at: { readonly x: number; readonly y: number } }) {
  const textRef = useRef<SVGTextElement>(null);
  const [width, setWidth] = useState(text.length * 8);
  useLayoutEffect(() => {
    const measured = textRef.current?.getComputedTextLength() ?? 0;
    if (measured > 0) setWidth(measured);
  }, [text]);
  return (
    <g className={id === undefined ? undefined : "w"} data-mark={id} data-kind={id === undefined ? undefined : "words"} transform={`translate(${at.x} ${at.y})`}>
      <rect x={0} y={-14} width={width + 16} height={28} className="tag" />
      <text ref={textRef} x={8} y={5}>{text}</text>
    </g>
  );
}
