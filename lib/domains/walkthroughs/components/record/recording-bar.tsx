"use client";
import { useEffect, useRef, useState } from "react";
import { Button } from "@/lib/ui/button";
import { sayMinutes } from "../../rules";
import type { Recording } from "./use-recording";

interface RecordingBarProps {
  readonly recording: Recording;
  readonly onStart: (withVoice: boolean) => void;
  readonly onPause: () => void;
  readonly onGoOn: () => void;
}

/** Begin, pause, go on, end; how long it is and how loud. */
export function RecordingBar({ recording, onStart, onPause, onGoOn }: RecordingBarProps) {
  const { phase, voice, problem, isKeptHere, nowMs, level, finish, discard } = recording;
  const isOn = phase === "recording" || phase === "paused";
  return (
    <section className="recording" aria-label="Recording" data-voice={voice}>
      <div className="bar-line">
        {phase === "idle" || phase === "unsent" ? (
          <>
            <Button kind="main" onClick={() => onStart(true)} disabled={voice === "asking"}>{voice === "asking" ? "Asking for the microphone…" : "Record"}</Button>
            <Button onClick={() => onStart(false)}>Record without voice</Button>
          </>
        ) : null}
        {phase === "recording" ? <Button onClick={onPause}>Pause</Button> : null}
        {phase === "paused" ? <Button kind="main" onClick={onGoOn}>Go on</Button> : null}
        {isOn ? <Button kind={phase === "recording" ? "main" : undefined} onClick={() => void finish()}>End and keep</Button> : null}
        {phase === "paused" ? <Button kind="plain" onClick={() => void discard()}>Throw it away</Button> : null}
        {isOn ? <Running nowMs={nowMs} level={level} isRunning={phase === "recording"} hasVoice={voice === "open"} /> : null}
        {phase === "sending" ? <p className="note" role="status">Sending the talk…</p> : null}
      </div>
      {voice === "refused" ? <p className="note" role="alert">The microphone was refused. Allow it in the browser’s address line and press “Record” once more, or record without voice and write captions afterwards.</p> : null}
      {voice === "missing" ? <p className="note" role="alert">No microphone was found. Plug one in and press “Record” once more, or record without voice and write captions afterwards.</p> : null}
      {voice === "lost" && isOn ? <p className="note" role="alert">The microphone went away. What was said is kept, and what you show is recorded on; write the rest as captions, or end here and tell the next part anew.</p> : null}
      {!isKeptHere ? <p className="note" role="alert">This device has no room to keep the talk while it is made. It is sent when you end it; do not close the page before.</p> : null}
      {problem ? <p className="trouble" role="alert"><b>Not kept yet:</b> {problem}</p> : null}
    </section>
  );
}

interface RunningProps {
  readonly nowMs: () => number;
  readonly level: () => number;
  readonly isRunning: boolean;
  readonly hasVoice: boolean;
}

/** Below this for so long somebody is told that nothing is heard. */
const QUIET = 0.12;
const QUIET_AFTER_MS = 4000;

function Running({ nowMs, level, isRunning, hasVoice }: RunningProps) {
  const [shown, setShown] = useState({ ms: 0, level: 0, isQuiet: false });
  const heardAtRef = useRef(0);
  useEffect(() => {
    const timer = setInterval(() => {
      const [ms, now] = [nowMs(), level()];
      if (now > QUIET || !isRunning) heardAtRef.current = ms;
      setShown({ ms, level: now, isQuiet: hasVoice && ms - heardAtRef.current > QUIET_AFTER_MS });
    }, 100);
    return () => clearInterval(timer);
  }, [nowMs, level, isRunning, hasVoice]);
  const loud = Math.round(shown.level * 100);
  return (
    <>
      <p className="head" role="timer" aria-live="off">{isRunning ? "Recording" : "Paused"} {sayMinutes(shown.ms)}</p>
      {hasVoice ? <meter min={0} max={100} value={isRunning ? loud : 0} aria-label="How loud the microphone hears" /> : <span className="note">without voice</span>}
      {shown.isQuiet ? <span className="note" role="status">Nothing is heard. Is the microphone muted?</span> : null}
    </>
  );
}
