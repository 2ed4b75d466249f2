import { useEffect, useMemo, useState } from "react";
import type { ClipView } from "../view";
import { openFrameSource } from "./frame-source";
import type { FrameSource } from "./frame-source-type";
import { toldOf } from "./told-problem";

export type SourceStatus =
  | { readonly kind: "loading"; readonly part: number }
  /** `doubt`: what of it cannot be shown. */
  | { readonly kind: "ready"; readonly source: FrameSource; readonly doubt: string | null }
  | { readonly kind: "failed"; readonly sentence: string; readonly again: () => void };

const notShown = "The pictures of this clip could not be shown. Nothing was lost; please open the page again.";

/** Opens the clip's pictures when the page is there and closes them when it is left. */
export function useFrameSource(clip: Pick<ClipView, "steppingUrl" | "frameTimes">): SourceStatus {
  const { steppingUrl: url, frameTimes } = clip;
  const [status, setStatus] = useState<SourceStatus>({ kind: "loading", part: 0 });
  const [attempt, setAttempt] = useState(0);
  // A page that is read anew gets equal times in a new object; only other times mean another clip.
  const timesKey = useMemo(() => `${frameTimes.timeBaseNum}/${frameTimes.timeBaseDen} ${frameTimes.ticks.join(" ")}`, [frameTimes]);

  useEffect(() => {
    const left = new AbortController();
    let source: FrameSource | null = null;
    const [base = "1/1", ...ticks] = timesKey.split(" ");
    const [num = 1, den = 1] = base.split("/").map(Number);
    const fail = (sentence: string) => setStatus({ kind: "failed", sentence, again: () => setAttempt((it) => it + 1) });
    openFrameSource({
      url,
      frameTimes: { timeBaseNum: num, timeBaseDen: den, ticks: ticks.map(Number) },
      signal: left.signal,
      onProgress: (part) => setStatus((now) => (now.kind === "loading" && part - now.part < 0.02 ? now : { kind: "loading", part })),
    }).then(
      (opened) => {
        if (left.signal.aborted) return opened.close();
        source = opened;
        opened.onFailed(fail);
        opened.onDoubt((doubt) => setStatus((now) => (now.kind === "ready" ? { ...now, doubt } : now)));
        setStatus({ kind: "ready", source: opened, doubt: null });
      },
      (problem: unknown) => {
        if (!left.signal.aborted) fail(toldOf(problem, notShown));
      },
    );
    return () => {
      left.abort();
      source?.close();
      setStatus({ kind: "loading", part: 0 });
    };
  }, [url, timesKey, attempt]);

  return status;
}
