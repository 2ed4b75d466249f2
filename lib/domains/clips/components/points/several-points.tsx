"use client";
import { LIMBS } from "../../points/rules";
import { POINT_PAIRS } from "../../points/schema";
import type { Change } from "../kept";
import type { PointBatch } from "./point-known";
import type { Neighbour, PointBatches } from "./use-point-batches";

export interface SeveralPointsProps {
  readonly batches: PointBatches;
  readonly frameIndex: number;
  /** The change that Undo would take back. */
  readonly last: Change | undefined;
}

/** Points of the frame before or after taken over, front and back exchanged: several points in one step. */
export function SeveralPoints({ batches, frameIndex, last }: SeveralPointsProps) {
  const { pairs, before, after, suggested, onSwap, onCopy, onTake } = batches;
  const done = last?.kind === "points" && last.frameIndex === frameIndex ? doneWords(last.by, last.steps.length) : "";
  const limbs = LIMBS.filter((limb) => limb.pairs.some((pair) => pairs.includes(pair)));
  if (!before && !after && pairs.length === 0) return null;
  const { drafts, weak } = suggested;
  return (
    <section aria-label="Several points at once">
      {drafts.length + weak.length > 0 ? (
        <>
          <div className="bar-line">
            {drafts.length > 0 ? <button type="button" className="btn" aria-keyshortcuts="A" title="A" onClick={() => onTake(false)}>{takeWords(drafts.length)}</button> : null}
            {weak.length > 0 ? (
              <button type="button" className={drafts.length > 0 ? "btn plain" : "btn"} aria-keyshortcuts="Shift+A" title="Shift and A" onClick={() => onTake(true)}>
                {drafts.length > 0 ? `With the ${weak.length} weak ones` : takeWords(weak.length)}
              </button>
            ) : null}
          </div>
          {weak.length > 0 ? <p className="note">{WEAK_WORDS}</p> : null}
        </>
      ) : null}
      {before || after ? (
        <div className="bar-line">
          {before ? <button type="button" className="btn" aria-keyshortcuts="B" title="B" onClick={() => onCopy(-1)}>{copyWords(before, "before", frameIndex)}</button> : null}
          {after ? <button type="button" className="btn" aria-keyshortcuts="Shift+B" title="Shift and B" onClick={() => onCopy(1)}>{copyWords(after, "after", frameIndex)}</button> : null}
        </div>
      ) : null}
      {limbs.length > 0 ? (
        <details className="fold">
          <summary>Exchange front and back</summary>
          <div className="bar-line">
            <button type="button" className="btn" aria-keyshortcuts="X" aria-label="Exchange front and back: all points" onClick={() => onSwap(POINT_PAIRS)}>All points</button>
            {limbs.map(({ id, name, pairs: own }) => (
              <button key={id} type="button" className="btn" aria-label={`Exchange front and back: ${name.toLowerCase()}`} onClick={() => onSwap(own)}>{name}</button>
            ))}
          </div>
          <p className="note">Key X exchanges all, Shift and X the limb of the point in hand. Undo takes it back in one step.</p>
        </details>
      ) : null}
      <p className={done ? "small" : "hush"} role="status">{done}</p>
    </section>
  );
}

const WEAK_WORDS = "Elbows and wrists, and from before and behind the head, are often off: look at each before you take it. No reading uses them until you have.";

function takeWords(count: number): string {
  return count === 1 ? "Take the suggested point" : `Take ${count} suggested points`;
}

function copyWords({ frameIndex: from, count }: Neighbour, side: "before" | "after", frameIndex: number): string {
  const far = Math.abs(from - frameIndex);
  const where = far === 1 ? `the frame ${side}` : `${far} frames ${side}`;
  return `Copy ${count === 1 ? "one point" : `${count} points`} from ${where}`;
}

function doneWords(by: PointBatch["by"], steps: number): string {
  if (by === "take") return `${steps === 1 ? "One suggested point" : `${steps} suggested points`} taken. Undo gives ${steps === 1 ? "it" : "them"} back.`;
  if (by === "swap") return `Front and back of ${steps / 2 === 1 ? "one pair" : `${steps / 2} pairs`} are exchanged.`;
  return `${steps === 1 ? "One point" : `${steps} points`} copied. Move what has moved.`;
}
