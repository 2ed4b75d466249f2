"use client";

import { useMemo, useState, type FormEvent } from "react";
import { lineWords } from "@/lib/measure/camera/line-words";
import { Button } from "@/lib/ui/button";
import { TextInput } from "@/lib/ui/text-input";
import { setCameraLine } from "../actions";
import { cameraLineOf } from "../rules";
import type { CameraFacts, CameraLineInput } from "../schema";
import type { ClipView } from "../view";
import { cameraWords as words, keptLineWords } from "./camera-words";
import { useOneChange } from "./use-one-change";
import { PLATE_CORNERS, type PlateTaps } from "./use-plate-taps";

interface CameraLineProps {
  /** The clip with its points and events as they stand now. */
  readonly clip: ClipView;
  readonly camera: CameraFacts;
  /** From `usePlateTaps`; the picture's view hands its taps to `taps.take` while `taps.isAsking`. */
  readonly taps: PlateTaps;
}

/** How the camera stood: what is known of it with its doubt, home plate to mark, the body's word, or degrees by hand. */
export function CameraLine({ clip, camera, taps }: CameraLineProps) {
  const { isBusy, trouble, undo, send } = useOneChange();
  const [problem, setProblem] = useState<string | undefined>();
  const { corners, frameIndex, isAsking } = taps;
  const isWhole = corners.length === PLATE_CORNERS;
  const body = useMemo(() => cameraLineOf(clip, null), [clip]);
  const plate = useMemo(() => (isWhole ? cameraLineOf(clip, corners) : null), [clip, corners, isWhole]);
  const clipId = clip.id;
  const keep = (line: CameraLineInput) => send(() => setCameraLine(line), () => setCameraLine(asItIs(clipId, camera)));
  const state = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const written = String(new FormData(event.currentTarget).get("offDeg") ?? "").trim();
    const offDeg = Number(written);
    const isPossible = written !== "" && offDeg >= 0 && offDeg <= 90;
    setProblem(isPossible ? undefined : words.wrongDegrees);
    if (isPossible) keep({ clipId, source: "stated", offDeg });
  };
  if (!clip.abilities.canMeasure) return <Standing camera={camera} clip={clip} />;
  return (
    <section aria-label={words.title}>
      <Standing camera={camera} clip={clip} />
      {isAsking ? (
        <>
          <p className="note" role="status">
            {plate?.line ? lineWords(plate.line, clip.view) : plate ? sentence(plate.reason ?? "") : words.tap(corners.length)}
          </p>
          {plate?.areAtOdds ? <p className="note">{words.atOdds}</p> : null}
          <div className="bar-line">
            {plate?.line && frameIndex !== null ? (
              <Button
                kind="main" disabled={isBusy}
                onClick={() => {
                  keep({ clipId, source: "plate", plateMark: { v: 1, frameIndex, corners: corners.map(({ x, y }) => ({ x, y })) } });
                  taps.stop();
                }}
              >
                {words.keep}
              </Button>
            ) : null}
            {corners.length > 0 ? <Button onClick={taps.takeBack}>{words.takeBack}</Button> : null}
            <Button kind="plain" onClick={taps.stop}>{words.stop}</Button>
          </div>
        </>
      ) : (
        <div className="bar-line">
          <Button onClick={taps.begin}>{camera.plateMark ? words.markAgain : words.markPlate}</Button>
          {undo ? <Button kind="plain" disabled={isBusy} onClick={undo}>{words.undo}</Button> : null}
        </div>
      )}
      {body.line && !isAsking && camera.cameraOffSource !== "plate" ? (
        <>
          <p className="note">{words.body(lineWords(body.line, clip.view))}</p>
          {camera.cameraOffSource === "widths" ? null : <Button kind="plain" disabled={isBusy} onClick={() => keep({ clipId, source: "widths" })}>{words.keepBody}</Button>}
        </>
      ) : null}
      <details className="fold">
        <summary>{words.degrees}</summary>
        <form className="form" onSubmit={state} noValidate>
          <TextInput name="offDeg" label={words.degrees} isShort inputMode="decimal" error={problem} />
          <div className="bar-line">
            <Button type="submit" disabled={isBusy}>{words.keepDegrees}</Button>
            <Button disabled={isBusy} onClick={() => keep({ clipId, source: "stated", offDeg: 0 })}>{words.setOnLine}</Button>
            {camera.cameraOffDeg === null ? null : <Button kind="plain" disabled={isBusy} onClick={() => keep({ clipId, source: "unknown" })}>{words.setUnknown}</Button>}
          </div>
        </form>
      </details>
      <div role="alert">{trouble ? <p className="trouble">{trouble}</p> : null}</div>
    </section>
  );
}

function Standing({ clip, camera }: Pick<CameraLineProps, "clip" | "camera">) {
  return (
    <>
      <h2>{words.title}</h2>
      <p className="small">{keptLineWords(camera, clip.view)}</p>
    </>
  );
}

/** What stands now, as it would be sent again. */
function asItIs(clipId: string, { cameraOffDeg, cameraOffSource, plateMark }: CameraFacts): CameraLineInput {
  if (cameraOffDeg === null) return { clipId, source: "unknown" };
  if (cameraOffSource === "plate" && plateMark) return { clipId, source: "plate", plateMark };
  return cameraOffSource === "widths" ? { clipId, source: "widths" } : { clipId, source: "stated", offDeg: Math.abs(cameraOffDeg) };
}

const sentence = (reason: string) => `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`;
