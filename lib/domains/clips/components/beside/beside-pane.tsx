"use client";
import { useRef, type Dispatch } from "react";
import { placementOf, type Look, type Placement, type Size, type Spot } from "../../rules";
import type { ClipBeside } from "../../view";
import { FrameCanvas } from "../frame-canvas";
import type { Gesture } from "../gesture";
import { Overlay } from "../overlay";
import { useBox } from "../use-box";
import { useCloseStart } from "../use-close-start";
import type { SourceStatus } from "../use-frame-source";
import type { BesideAction, BesideState } from "./beside-state";
import { lookIn } from "./beside-state";
import { beyondWords, pictureWords, timeWords } from "./beside-words";
import type { LinedClip } from "./lined-clip";
import { OpeningStill } from "./opening-still";
import { usePaneGestures } from "./use-pane-gestures";
import { useSay } from "@/lib/ui/words/use-say";

export interface BesidePaneProps {
  readonly beside: ClipBeside;
  readonly lined: LinedClip;
  readonly number: number;
  readonly status: SourceStatus;
  readonly state: BesideState;
  readonly dispatch: Dispatch<BesideAction>;
  /** The frame whose pixels are shown; null while none is. */
  readonly shown: number | null;
  /** Where the common clock stands. */
  readonly clock: number | null;
  /** A small picture of the frame that is wanted first, as a data address: it came with the page and stands until the clip is open. */
  readonly opening?: string;
  /** Somebody draws, on whichever picture the hand comes down. */
  readonly drawing?: PaneDrawing | null;
}

/** A drawing in the making over the pictures. */
export interface PaneDrawing {
  /** The clip that is drawn on, and the shape so far. */
  readonly clipId: string;
  readonly gesture: Gesture;
  readonly cross: Spot | null;
  readonly move: (clipId: string, to: Spot) => void;
  readonly place: () => void;
}

const nowhere: Placement = { scale: 1, dx: 0, dy: 0 };
const noGesture = { kind: "none" } as const;

/** One clip's picture: its frame, what was placed and drawn on it, its name and its own seconds. */
export function BesidePane({ beside, lined, number, status, state, dispatch, shown, clock, opening, drawing = null }: BesidePaneProps) {
  const { clip, caption, isShown } = beside;
  // These words of the pictures are English for everybody so far.
  const lang = useSay().asWritten;
  const hostRef = useRef<HTMLDivElement>(null);
  const box = useBox(hostRef);
  const picture: Size = { width: clip.widthPx, height: clip.heightPx };
  const place = state.places[clip.id];
  const tapping = state.tapping?.clipId === clip.id ? state.tapping : null;
  const look = place && box ? lookIn(place, picture, box) : { zoom: 1, centre: { x: picture.width / 2, y: picture.height / 2 } };
  const isFlipped = place?.isFlipped ?? false;
  const placement = box ? placementOf(look, picture, box, isFlipped) : nowhere;
  const onLook = (to: Look) => dispatch({ kind: "look", clipId: clip.id, look: to });
  const gestures = usePaneGestures({
    pane: { picture, box: box ?? picture, isFlipped }, placement, look, onLook,
    aiming: drawing ? { move: (to) => drawing.move(clip.id, to), place: drawing.place } : tapping ? { move: (to) => dispatch({ kind: "tap-move", to }), place: () => dispatch({ kind: "tap-place" }) } : null,
  });
  useCloseStart(box, clip, place?.look ?? null, onLook);
  const isInHand = state.inHand === clip.id;
  const takeInHand = () => dispatch({ kind: "take-in-hand", clipId: clip.id });
  const beyond = shown === null ? null : beyondWords(lined, clock);
  return (
    <div
      ref={hostRef} className={isInHand ? "frame taken" : "frame"} lang={lang} role="group" tabIndex={0} aria-label={`Picture ${number}, ${caption}${isInHand ? ", in hand" : ""}`}
      style={{ touchAction: "none", cursor: tapping || drawing ? "crosshair" : "grab", userSelect: "none" }} onFocus={takeInHand}
      {...gestures}
      onPointerDown={(event) => {
        takeInHand();
        gestures.onPointerDown(event);
      }}
    >
      {status.kind === "ready" && box && shown !== null ? (
        <>
          <FrameCanvas source={status.source} frameIndex={shown} travel={0} isPlaying placement={placement} picture={picture} box={box} label={pictureWords(caption, lined, shown)} />
          <Overlay
            box={box} placement={placement} points={state.hasPoints ? clip.points.filter((it) => it.frameIndex === shown) : []}
            marks={clip.marks.filter((it) => it.frameIndex === shown)} gesture={drawing?.clipId === clip.id ? drawing.gesture : noGesture} editedMark={null} cross={drawing?.clipId === clip.id ? drawing.cross : (tapping?.cross ?? null)}
          />
        </>
      ) : isShown && opening ? (
        <OpeningStill src={opening} clip={clip} placement={box ? placement : null} />
      ) : isShown && clip.posterUrl ? (
        <img src={clip.posterUrl} alt="" style={isFlipped ? { transform: "scaleX(-1)" } : undefined} />
      ) : null}
      {!isShown ? <p className="fetching">{beside.whyNotShown ?? "No consent to film for lessons is in force, so this film is not shown."}</p> : null}
      {isShown && status.kind === "loading" ? <p className="fetching" role="status">Fetching the pictures{status.part > 0 ? `, ${Math.round(status.part * 100)} of 100` : ""}…</p> : null}
      {status.kind === "failed" && isShown ? (
        <div className="fetching" role="alert">
          <p>{status.sentence}</p>
          <button type="button" className="btn" onClick={status.again}>Try again</button>
        </div>
      ) : null}
      {status.kind === "ready" && shown !== null && status.source.isLost(shown) ? <p className="fetching">This frame cannot be decoded.</p> : null}
      <p className="cap">
        <span>
          {number} · {caption}
          {isFlipped ? ", flipped" : ""}
        </span>
      </p>
      {shown !== null ? (
        <p className="at" data-clip={clip.id}>
          {timeWords(lined, shown)}
          {beyond ? `, ${beyond}` : ""}
        </p>
      ) : null}
    </div>
  );
}
