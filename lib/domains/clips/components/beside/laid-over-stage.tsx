"use client";
import { useLayoutEffect, useRef, type Dispatch } from "react";
import { placementOf, wholeLook, type Look, type Placement, type Size } from "../../rules";
import type { ClipBeside } from "../../view";
import type { FrameSource } from "../frame-source-type";
import { Overlay } from "../overlay";
import { useBox } from "../use-box";
import { useCloseStart } from "../use-close-start";
import { lookIn, type BesideAction, type BesideState } from "./beside-state";
import { pictureWords, timeWords } from "./beside-words";
import { placementOver, type Anchors, type TorsoScale } from "./laid-over";
import type { LinedClip } from "./lined-clip";
import { OpeningStill } from "./opening-still";
import type { Frames } from "./showing";
import { usePaneGestures } from "./use-pane-gestures";
import { useSay } from "@/lib/ui/words/use-say";

export interface LaidOverStageProps {
  readonly clips: readonly ClipBeside[];
  readonly lined: readonly LinedClip[];
  readonly sources: Readonly<Record<string, FrameSource>>;
  readonly state: BesideState;
  readonly dispatch: Dispatch<BesideAction>;
  readonly shown: Frames;
  readonly torso: TorsoScale;
  readonly anchors: Anchors;
  /** A small picture of the first clip's first frame, as a data address, until the clips are open. */
  readonly opening?: string;
}

interface Layer {
  readonly clip: ClipBeside["clip"];
  readonly source: FrameSource;
  readonly frameIndex: number;
  readonly placement: Placement;
  readonly opacity: number;
}

const noGesture = { kind: "none" } as const;

/** The clips over one another in one picture: the first one whole, the others as much as is wished. */
export function LaidOverStage({ clips, lined, sources, state, dispatch, shown, torso, anchors, opening }: LaidOverStageProps) {
  // These words of the pictures are English for everybody so far.
  const lang = useSay().asWritten;
  const hostRef = useRef<HTMLDivElement>(null);
  const box = useBox(hostRef);
  const [first] = clips;
  const picture: Size = { width: first?.clip.widthPx ?? 1, height: first?.clip.heightPx ?? 1 };
  const place = first ? state.places[first.clip.id] : undefined;
  const look = place && box ? lookIn(place, picture, box) : wholeLook(picture);
  const isFlipped = place?.isFlipped ?? false;
  const ground = placementOf(look, picture, box ?? picture, isFlipped);
  const onLook = (to: Look) => first && dispatch({ kind: "look", clipId: first.clip.id, look: to });
  const gestures = usePaneGestures({
    pane: { picture, box: box ?? picture, isFlipped }, placement: ground, look, aiming: null, onLook,
  });
  useCloseStart(box, first?.clip ?? null, place?.look ?? null, onLook);
  const layers = clips.flatMap(({ clip }, i): Layer[] => {
    const source = sources[clip.id];
    const frameIndex = shown[clip.id];
    if (!source || frameIndex === undefined || !first) return [];
    const placement = i === 0 ? ground : placementOver({ clip: first.clip, placement: ground }, clip, state.places[clip.id]?.isFlipped ?? false, torso, anchors);
    return [{ clip, source, frameIndex, placement, opacity: i === 0 ? 1 : state.opacity }];
  });
  const label = clips.flatMap(({ clip, caption }) => {
    const own = lined.find((it) => it.id === clip.id);
    const frame = shown[clip.id];
    return own && frame !== undefined ? [pictureWords(caption, own, frame)] : [];
  });
  return (
    <div
      ref={hostRef} className="frame" lang={lang} role="group" tabIndex={0} aria-label="Pictures laid over one another"
      style={{ touchAction: "none", cursor: "grab", userSelect: "none" }} {...gestures}
    >
      {first && opening && layers.length === 0 ? <OpeningStill src={opening} clip={first.clip} placement={box ? ground : null} /> : null}
      {box && (layers.length > 0 || !opening) ? (
        <>
          <LayersCanvas layers={layers} box={box} label={label.join("; ")} />
          {layers.map(({ clip, frameIndex, placement, opacity }) =>
            opacity > 0 ? (
              <Overlay
                key={clip.id} box={box} placement={placement} points={state.hasPoints ? clip.points.filter((it) => it.frameIndex === frameIndex) : []}
                marks={clip.marks.filter((it) => it.frameIndex === frameIndex)} gesture={noGesture} editedMark={null} cross={null}
              />
            ) : null,
          )}
        </>
      ) : null}
      <p className="cap">
        <span>{clips.map(({ caption, clip }) => `${caption}${state.places[clip.id]?.isFlipped ? ", flipped" : ""}`).join(" · ")}</span>
      </p>
      <p className="at">
        {lined.flatMap((it) => {
          const frame = shown[it.id];
          return frame === undefined ? [] : [timeWords(it, frame)];
        }).join(" · ")}
      </p>
    </div>
  );
}

/** All pictures on one canvas; `data-frames` names the frames whose pixels are on it. */
function LayersCanvas({ layers, box, label }: { readonly layers: readonly Layer[]; readonly box: Size; readonly label: string }) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const key = layers.map(({ clip, frameIndex, opacity, placement: { scale, dx, dy, isFlipped } }) => [clip.id, frameIndex, opacity, scale, dx, dy, isFlipped].join(" ")).join("|");
  const paintedRef = useRef("");
  useLayoutEffect(() => {
    const canvas = canvasRef.current;
    const pen = canvas?.getContext("2d", { alpha: false });
    const wanted = `${key}|${box.width} ${box.height}`;
    if (!canvas || !pen || paintedRef.current === wanted || !layers.every(({ source, frameIndex }) => source.isLost(frameIndex) || source.draw(frameIndex, () => undefined))) return;
    const density = window.devicePixelRatio || 1;
    canvas.width = Math.round(box.width * density);
    canvas.height = Math.round(box.height * density);
    pen.fillStyle = "#000";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.imageSmoothingQuality = "high";
    for (const { clip, source, frameIndex, placement, opacity } of layers) {
      pen.setTransform((placement.isFlipped ? -placement.scale : placement.scale) * density, 0, 0, placement.scale * density, placement.dx * density, placement.dy * density);
      pen.globalAlpha = opacity;
      source.draw(frameIndex, (frame) => pen.drawImage(frame, 0, 0, clip.widthPx, clip.heightPx));
    }
    canvas.dataset.frames = layers.map(({ frameIndex }) => frameIndex).join(" ");
    paintedRef.current = wanted;
  });
  return <canvas ref={canvasRef} role="img" aria-label={label} style={{ position: "absolute", inset: 0, width: "100%", height: "100%", display: "block" }} />;
}
