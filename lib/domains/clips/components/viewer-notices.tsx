"use client";
import type { SourceStatus } from "./use-frame-source";
import type { LeaveGuard } from "./use-leave-guard";

export interface ViewerNoticesProps {
  readonly status: SourceStatus;
  readonly failure: string | null;
  /** Playing has fallen behind what was asked. */
  readonly isSlow: boolean;
  readonly leaving: LeaveGuard;
  /** Makes the change again over what stands now; null when nobody was faster. */
  readonly onKeepMine: (() => void) | null;
  readonly onRead: () => void;
}

/** What one must know before trusting what one sees. */
export function ViewerNotices({ status, failure, isSlow, leaving, onKeepMine, onRead }: ViewerNoticesProps) {
  return (
    <>
      {status.kind === "failed" ? (
        <div className="trouble" role="alert">
          <p>{status.sentence}</p>
          <div className="bar-line">
            <button type="button" className="btn" onClick={status.again}>Try again</button>
          </div>
        </div>
      ) : null}
      {status.kind === "ready" && status.doubt ? <p className="note" role="status">{status.doubt}</p> : null}
      {status.kind === "ready" && !status.source.isExact ? (
        <p className="note" role="status">This browser cannot step frame by frame. The picture may be one frame from the one named; set events and points in another browser.</p>
      ) : null}
      {isSlow ? <p className="note" role="status">This device plays slower than asked; the times shown stay true.</p> : null}
      {leaving.isWaiting ? (
        <div className="trouble" role="alert">
          <p>The last change is not kept yet. The page is left as soon as it is.</p>
          <div className="bar-line">
            <button type="button" className="btn" onClick={leaving.stay}>Stay here</button>
            <button type="button" className="btn plain" onClick={leaving.leave}>Leave without it</button>
          </div>
        </div>
      ) : null}
      {failure ? (
        <div className="trouble" role="alert">
          <p>{failure}</p>
          <div className="bar-line">
            {onKeepMine ? <button type="button" className="btn" onClick={onKeepMine}>Keep mine instead</button> : null}
            <button type="button" className="btn" onClick={onRead}>{onKeepMine ? "Leave theirs" : "I have read it"}</button>
          </div>
        </div>
      ) : null}
    </>
  );
}
