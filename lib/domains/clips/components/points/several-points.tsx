"use client";
import { LIMBS } from "../../points/rules";
import { POINT_PAIRS } from "../../points/schema";
import type { Change } from "../kept";
import type { Neighbour, PointBatches } from "./use-point-batches";

export interface SeveralPointsProps {
  readonly batches: PointBatches;
  readonly frameIndex: number;
  /** The change that Undo would take back. */
  readonly last: Change | undefined;
}

/** Points of the frame before or after taken over, front and back exchanged: several points in one step. */
export function SeveralPoints({ batches, frameIndex, last }: SeveralPointsProps) {
  const { pairs, before, after, onSwap, onCopy } = batches;
  const done = last?.kind === "points" && last.frameIndex === frameIndex ? doneWords(last.by, last.steps.length) : "";
  const limbs = LIMBS.filter((limb) => limb.pairs.some((pair) => pairs.includes(pair)));
  if (!before && !after && pairs.length === 0) return null;
  return (
    <section aria-label="Several points at once">
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

function copyWords({ frameIndex: from, count }: Neighbour, side: "before" | "after", frameIndex: number): string {
  const far = Math.abs(from - frameIndex);
  const where = far === 1 ? `the frame ${side}` : `${far} frames ${side}`;
  return `Copy ${count === 1 ? "one point" : `${count} points`} from ${where}`;
}

function doneWords(by: "swap" | "copy", steps: number): string {
  if (by === "swap") return `Front and back of ${steps / 2 === 1 ? "one pair" : `${steps / 2} pairs`} are exchanged.`;
  return `${steps === 1 ? "One point" : `${steps} points`} copied. Move what has moved.`;
}
