"use client";
import { useEffect, useId, useRef, useState, type KeyboardEvent } from "react";
import type { Travel } from "./frame-source-type";
import { notHere, openLocalFilm, type LocalFilm } from "./local-film";
import { toldOf } from "./told-problem";

export interface LocalStepperProps {
  readonly file: Blob;
  /** What the film is called on the page. */
  readonly label: string;
}

/** Steps a chosen film at once, before or while it is sent; opened only when somebody wants to look. */
export function LocalStepper({ file, label }: LocalStepperProps) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className="fold local-film" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary aria-label={`Step ${label} now`}>Step it now</summary>
      {isOpen ? <OpenedFilm file={file} label={label} /> : null}
    </details>
  );
}

type Opening = { readonly kind: "opening" } | { readonly kind: "open"; readonly film: LocalFilm } | { readonly kind: "refused"; readonly sentence: string };

function OpenedFilm({ file, label }: LocalStepperProps) {
  const [opening, setOpening] = useState<Opening>({ kind: "opening" });
  useEffect(() => {
    let isLeft = false;
    let film: LocalFilm | null = null;
    const refuse = (sentence: string) => !isLeft && setOpening({ kind: "refused", sentence });
    openLocalFilm(file).then(
      (opened) => {
        if (isLeft) return opened.source.close();
        film = opened;
        opened.source.onFailed(refuse);
        setOpening({ kind: "open", film: opened });
      },
      (problem: unknown) => refuse(toldOf(problem, notHere)),
    );
    return () => {
      isLeft = true;
      film?.source.close();
    };
  }, [file]);
  if (opening.kind === "opening") return <p className="quiet" role="status">Opening it here…</p>;
  if (opening.kind === "refused") return <p className="note" role="status">{opening.sentence}</p>;
  return <FilmSteps film={opening.film} label={label} />;
}

function FilmSteps({ film, label }: { readonly film: LocalFilm; readonly label: string }) {
  const { source, seconds, widthPx, heightPx, turnDeg } = film;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const [asked, setAsked] = useState<{ readonly frame: number; readonly travel: Travel }>({ frame: 0, travel: 1 });
  const [shown, setShown] = useState<number | null>(null);
  const id = useId();
  const last = source.frameCount - 1;

  useEffect(() => {
    const paint = () => {
      const canvas = canvasRef.current;
      const pen = canvas?.getContext("2d", { alpha: false });
      if (!canvas || !pen) return;
      const isPainted = source.draw(asked.frame, (picture) => {
        const isSideways = turnDeg === 90 || turnDeg === 270;
        pen.setTransform(1, 0, 0, 1, canvas.width / 2, canvas.height / 2);
        pen.rotate((turnDeg * Math.PI) / 180);
        const [width, height] = isSideways ? [canvas.height, canvas.width] : [canvas.width, canvas.height];
        pen.drawImage(picture, -width / 2, -height / 2, width, height);
        canvas.dataset.frameIndex = String(asked.frame);
      });
      if (isPainted) setShown(asked.frame);
    };
    const stop = source.onReady((frame) => frame === asked.frame && paint());
    source.want(asked.frame, asked.travel);
    const request = requestAnimationFrame(paint);
    return () => {
      stop();
      cancelAnimationFrame(request);
    };
  }, [source, asked, turnDeg]);

  const go = (frame: number) => setAsked((now) => ({ frame: Math.max(0, Math.min(last, frame)), travel: frame < now.frame ? -1 : 1 }));
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "ArrowLeft" && event.key !== "ArrowRight") return;
    event.preventDefault();
    go(asked.frame + (event.key === "ArrowLeft" ? -1 : 1) * (event.shiftKey ? 10 : 1));
  };
  const width = Math.min(960, widthPx);
  const words = shown === null ? "Opening it here…" : `Frame ${shown + 1} of ${last + 1}, ${(seconds[shown] ?? 0).toFixed(3)} s from the start`;
  return (
    <div onKeyDown={onKeyDown}>
      <canvas ref={canvasRef} width={width} height={Math.round((width * heightPx) / widthPx)} role="img" aria-label={`${label}: ${words}`} />
      <p className="quiet small" role="status">{words}</p>
      {source.isExact ? null : <p className="note">This browser cannot step frame by frame. The picture may be one frame from the one named.</p>}
      <div className="bar-line">
        <button type="button" className="btn" aria-keyshortcuts="ArrowLeft" onClick={() => go(asked.frame - 1)}>‹ One frame back</button>
        <button type="button" className="btn" aria-keyshortcuts="ArrowRight" onClick={() => go(asked.frame + 1)}>One frame on ›</button>
      </div>
      <div className="field">
        <label htmlFor={id}>Where in the film</label>
        <input id={id} type="range" min={0} max={last} value={asked.frame} aria-valuetext={words} onChange={(event) => go(Number(event.target.value))} />
      </div>
    </div>
  );
}
