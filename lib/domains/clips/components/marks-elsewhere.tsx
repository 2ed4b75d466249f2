"use client";
import { sayClock } from "../rules";
import { sayMarks } from "./mark-names";
import type { MarkedFrame } from "./marked-frames";

/** The other frames that carry marks; each opens on its own frame. */
export function MarksElsewhere({ frames, onGo }: { readonly frames: readonly MarkedFrame[]; readonly onGo: (frameIndex: number) => void }) {
  if (frames.length === 0) return null;
  return (
    <section aria-label="Marks on other frames">
      <h3>On other frames</h3>
      <ul className="rows">
        {frames.map(({ frameIndex, clockSeconds, marks }) => (
          <li key={frameIndex}>
            <button type="button" className="btn plain" onClick={() => onGo(frameIndex)}>{sayClock(clockSeconds)} s</button>
            <span className="quiet">{sayMarks(marks)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
