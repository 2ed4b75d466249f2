"use client";

import { useMemo, useRef } from "react";
import { placementOf, wholeLook } from "../../rules";
import { FrameCanvas } from "../frame-canvas";
import type { FrameSource } from "../frame-source-type";
import { useBox } from "../use-box";

interface FilmPictureProps {
  readonly source: FrameSource;
  readonly frame: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly label: string;
}

/** One frame of the film, whole, as large as its place. */
export function FilmPicture({ source, frame, widthPx, heightPx, label }: FilmPictureProps) {
  const hostRef = useRef<HTMLDivElement>(null);
  const box = useBox(hostRef);
  const picture = useMemo(() => ({ width: widthPx, height: heightPx }), [widthPx, heightPx]);
  return (
    <div ref={hostRef} className="film-picture" style={{ aspectRatio: `${widthPx} / ${heightPx}` }}>
      {box ? <FrameCanvas source={source} frameIndex={frame} travel={1} isPlaying={false} placement={placementOf(wholeLook(picture), picture, box)} picture={picture} box={box} label={label} /> : null}
    </div>
  );
}
