"use client";
import { useLayoutEffect, useRef } from "react";
import type { Size, Spot } from "../rules";
import type { FrameSource } from "./frame-source-type";
import { useBox } from "./use-box";

export interface LoupeProps {
  readonly source: FrameSource;
  readonly frameIndex: number;
  readonly picture: Size;
  readonly at: Spot;
  /** Screen pixels for one pixel of the picture. */
  readonly scale: number;
}

/** The printer's glass: a piece of the frame, much larger, with scale marks and a cross that is open in the middle. */
export function Loupe({ source, frameIndex, picture, at, scale }: LoupeProps) {
  const hostRef = useRef<HTMLDivElement>(null);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const box = useBox(hostRef);
  const { x, y } = at;

  useLayoutEffect(() => {
    const canvas = canvasRef.current;
    const pen = canvas?.getContext("2d", { alpha: false });
    if (!canvas || !pen || !box) return;
    const density = window.devicePixelRatio || 1;
    canvas.width = Math.round(box.width * density);
    canvas.height = Math.round(box.height * density);
    const paint = () =>
      source.draw(frameIndex, (frame) => {
        const zoom = scale * density;
        pen.setTransform(1, 0, 0, 1, 0, 0);
        pen.fillStyle = "#000";
        pen.fillRect(0, 0, canvas.width, canvas.height);
        pen.setTransform(zoom, 0, 0, zoom, canvas.width / 2 - x * zoom, canvas.height / 2 - y * zoom);
        pen.imageSmoothingQuality = "high";
        pen.drawImage(frame, 0, 0, picture.width, picture.height);
      });
    if (paint()) return;
    return source.onReady((ready) => {
      if (ready === frameIndex) paint();
    });
  }, [source, frameIndex, x, y, scale, picture.width, picture.height, box]);

  return (
    <div ref={hostRef} style={{ position: "absolute", inset: 0 }}>
      <canvas ref={canvasRef} style={{ width: "100%", height: "100%", display: "block" }} />
      {box ? <Glass box={box} scale={scale} /> : null}
    </div>
  );
}

/** Scale marks each picture pixel (each fifth where they would touch), and the open cross. */
function Glass({ box, scale }: { readonly box: Size; readonly scale: number }) {
  const each = scale >= 5 ? 1 : 5;
  const marks = (length: number) =>
    Array.from({ length: Math.floor(length / 2 / (scale * each)) + 1 }, (_, i) => i).flatMap((i) => {
      const far = i * scale * each;
      const tall = i % 5 === 0 ? 9 : 5;
      return i === 0 ? [{ at: length / 2, tall }] : [{ at: length / 2 - far, tall }, { at: length / 2 + far, tall }];
    });
  const ruler =
    marks(box.width).map((it) => `M${it.at.toFixed(1)} 0v${it.tall}`).join("") + marks(box.height).map((it) => `M0 ${it.at.toFixed(1)}h${it.tall}`).join("");
  const cx = box.width / 2;
  const cy = box.height / 2;
  const cross = `M${cx} ${cy - 64}V${cy - 12}M${cx} ${cy + 12}V${cy + 64}M${cx - 64} ${cy}H${cx - 12}M${cx + 12} ${cy}H${cx + 64}`;
  return (
    <svg viewBox={`0 0 ${box.width} ${box.height}`} aria-hidden="true" style={{ position: "absolute", inset: 0, width: "100%", height: "100%", pointerEvents: "none" }}>
      <path d={ruler} stroke="#fff" strokeWidth={1} fill="none" />
      <path d={cross} stroke="var(--mark-case)" strokeWidth={6} fill="none" />
      <path d={cross} stroke="var(--mark)" strokeWidth={2} fill="none" />
    </svg>
  );
}
