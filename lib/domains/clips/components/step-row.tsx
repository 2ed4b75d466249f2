"use client";
import { PlayRates } from "./play-rates";

export interface StepRowProps {
  readonly isPlaying: boolean;
  readonly rate: number;
  readonly zoom: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly onStep: (by: number) => void;
  readonly onPlay: (isPlaying: boolean) => void;
  readonly onRate: (rate: number) => void;
  readonly onCloser: () => void;
  readonly onWhole: () => void;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
}

/** Stepping, playing, coming closer and taking back. */
export function StepRow(props: StepRowProps) {
  return (
    <div className="step">
      <button type="button" className="btn stride" aria-keyshortcuts="ArrowLeft" onClick={() => props.onStep(-1)}>‹ One frame back</button>
      <button type="button" className="btn stride" aria-keyshortcuts="ArrowRight" onClick={() => props.onStep(1)}>One frame on ›</button>
      <PlayRates rate={props.rate} onRate={props.onRate} />
      <button type="button" className="btn main" aria-keyshortcuts="Space" onClick={() => props.onPlay(!props.isPlaying)}>{props.isPlaying ? "Hold" : "Play"}</button>
      <button type="button" className="btn" disabled={props.zoom >= 8} onClick={props.onCloser}>Closer</button>
      <button type="button" className="btn" disabled={props.zoom <= 1} onClick={props.onWhole}>Whole picture</button>
      <button type="button" className="btn" disabled={!props.canUndo} aria-keyshortcuts="Control+Z" onClick={props.onUndo}>Undo</button>
      <button type="button" className="btn redo" disabled={!props.canRedo} aria-keyshortcuts="Control+Shift+Z" onClick={props.onRedo}>Redo</button>
    </div>
  );
}
