"use client";

import { SLOW_FACTORS } from "@/lib/measure/time/slow-motion";
import { Button } from "@/lib/ui/button";
import { setClipTime } from "../actions";
import type { ClipView } from "../view";
import { cameraWords } from "./camera-words";
import { slowMotionOf } from "./told-stretches";
import { useOneChange } from "./use-one-change";

const words = cameraWords.slow;

/**
 * Asks how fast a clip was filmed when its marks make an impossible swing, the likely answer first; after an answer it
 * offers to take it back. Nothing at all when the clock can be right.
 * `clip` holds the events as they stand now.
 */
export function SlowMotionQuestion({ clip }: { readonly clip: ClipView }) {
  const { isBusy, trouble, undo, send } = useOneChange();
  const { id: clipId, realSecondsPerFileSecond, timeBasis } = clip;
  const likely = clip.abilities.canMeasure ? slowMotionOf(clip) : null;
  if (!likely && !undo && !trouble) return null;
  const say = (factor: number) =>
    send(() => setClipTime({ clipId, realSecondsPerFileSecond: 1 / factor }), () => setClipTime({ clipId, realSecondsPerFileSecond, timeBasis }));
  const sayUnknown = () =>
    send(() => setClipTime({ clipId, realSecondsPerFileSecond, timeBasis: "unknown" }), () => setClipTime({ clipId, realSecondsPerFileSecond, timeBasis }));
  const others = SLOW_FACTORS.filter((factor) => factor !== likely?.factor);
  return (
    <section aria-label={words.title}>
      <h2>{words.title}</h2>
      {likely ? (
        <>
          <p role="status">
            {likely.question} {timeBasis === "stated" ? words.asStated : null}
          </p>
          <div className="bar-line">
            <Button kind="main" disabled={isBusy} onClick={() => say(likely.factor)}>{words.yes(likely.factor)}</Button>
            {others.map((factor) => (
              <Button key={factor} disabled={isBusy} onClick={() => say(factor)}>{words.other(factor)}</Button>
            ))}
            {timeBasis === "unknown" ? null : <Button kind="plain" disabled={isBusy} onClick={sayUnknown}>{words.unknown}</Button>}
          </div>
        </>
      ) : undo && timeBasis !== "unknown" ? (
        <p role="status">{words.kept(Math.round(1 / realSecondsPerFileSecond))}</p>
      ) : null}
      {undo ? <Button kind="plain" disabled={isBusy} onClick={undo}>{cameraWords.undo}</Button> : null}
      <div role="alert">{trouble ? <p className="trouble">{trouble}</p> : null}</div>
    </section>
  );
}
