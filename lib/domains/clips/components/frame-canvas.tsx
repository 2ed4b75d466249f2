"use client";
import { useEffect, useLayoutEffect, useRef } from "react";
import type { Placement, Size } from "../rules";
import type { FrameSource, Travel } from "./frame-source-type";

export interface FrameCanvasProps {
  readonly source: FrameSource;
  readonly frameIndex: number;
  readonly travel: Travel;
  /** While playing, the playing asks for frames ahead of the one shown. */
  readonly isPlaying: boolean;
  readonly placement: Placement;
  readonly picture: Size;
  readonly box: Size;
  readonly label: string;
  /** Told which frame's pixels lie on the canvas now. */
  readonly onShown?: (frameIndex: number) => void;
}

/**
 * The frame in hand. `data-frame-index` names the frame whose pixels are on the canvas, which is the one asked for as soon
 * as its picture is ready; until then the one before stays.
 */
export function FrameCanvas({ source, frameIndex, travel, isPlaying, placement, picture, box, label, onShown }: FrameCanvasProps) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const { scale, dx, dy, isFlipped = false } = placement;

  useLayoutEffect(() => {
    const canvas = canvasRef.current;
    const pen = canvas?.getContext("2d", { alpha: false });
    if (!canvas || !pen) return;
    const density = window.devicePixelRatio || 1;
    const width = Math.round(box.width * density);
    const height = Math.round(box.height * density);
    const paint = () =>
      source.draw(frameIndex, (frame) => {
        if (canvas.width !== width) canvas.width = width;
        if (canvas.height !== height) canvas.height = height;
        pen.setTransform(1, 0, 0, 1, 0, 0);
        pen.fillStyle = "#000";
        pen.fillRect(0, 0, width, height);
        pen.setTransform((isFlipped ? -scale : scale) * density, 0, 0, scale * density, dx * density, dy * density);
        pen.imageSmoothingQuality = "high";
        pen.drawImage(frame, 0, 0, picture.width, picture.height);
        canvas.dataset.frameIndex = String(frameIndex);
        onShown?.(frameIndex);
      });
    const clear = () => {
      if (!source.isLost(frameIndex)) return;
      pen.setTransform(1, 0, 0, 1, 0, 0);
      pen.clearRect(0, 0, canvas.width, canvas.height);
      delete canvas.dataset.frameIndex;
      onShown?.(frameIndex);
    };
    if (paint()) return;
    clear();
    return source.onReady((ready) => {
      if (ready === frameIndex && !paint()) clear();
    });
  }, [source, frameIndex, scale, dx, dy, isFlipped, picture.width, picture.height, box.width, box.height, onShown]);

  useEffect(() => {
    if (!isPlaying) source.want(frameIndex, travel);
  }, [source, frameIndex, travel, isPlaying]);

  return <canvas ref={canvasRef} role="img" aria-label={label} style={{ position: "absolute", inset: 0, width: "100%", height: "100%", display: "block" }} />;
}
