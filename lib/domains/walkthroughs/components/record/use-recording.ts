import { useCallback, useEffect, useRef, useState } from "react";
import type { BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import type { LinedClip } from "@/lib/domains/clips/components/beside/lined-clip";
import type { ClipBeside } from "@/lib/domains/clips/view";
import { newId } from "@/lib/core/ids";
import { MOST_HAPPENINGS, MOST_MS, type Happening, type TakeList } from "../../list/schema";
import { dropFromDevice, keepOnDevice, keepPiece, type KeptTake } from "./kept-takes";
import { sendTake } from "./send-take";
import { msOf, runClock, stopClock, stoppedClock, type TakeClock } from "./take-clock";
import type { Begun } from "./use-steady-playing";
import { VoiceRecorder, type VoiceState } from "./voice-recorder";
import { listOf, startOf, whatHappened, withHappening } from "./what-happened";

export type RecordingPhase = "idle" | "recording" | "paused" | "sending" | "kept" | "unsent";

export interface RecordingTarget {
  readonly userId: string;
  readonly playerId: string;
  readonly side: "right" | "left";
  readonly walkthroughId: string;
  /** The chapter that is told anew; null: what is told comes after what there is. */
  readonly chapterId: string | null;
}

/** What the device keeps of a take is brought up to date so often. */
const KEEP_EACH_MS = 2000;

/** A take in the making: its clock, its voice, its list, and what the device keeps of it meanwhile. */
export function useRecording(target: RecordingTarget, clips: readonly ClipBeside[], lined: readonly LinedClip[], state: BesideState) {
  const [phase, setPhase] = useState<RecordingPhase>("idle");
  const [voice, setVoice] = useState<VoiceState>("none");
  const [problem, setProblem] = useState<string | null>(null);
  const [isKeptHere, setIsKeptHere] = useState(true);
  const microphoneRef = useRef<VoiceRecorder | null>(null);
  const takeRef = useRef<{ takeId: string; clock: TakeClock; start: TakeList["start"]; happenings: readonly Happening[]; pieces: number; hasVoice: boolean } | null>(null);
  const seenRef = useRef(state);
  const [walkthroughId, setWalkthroughId] = useState<string | null>(null);

  const nowMs = useCallback(() => (takeRef.current ? msOf(takeRef.current.clock, performance.now()) : 0), []);

  const tell = useCallback(
    (it: Happening) => {
      const take = takeRef.current;
      if (!take) return;
      take.happenings = withHappening(take.happenings, { ...it, at: Math.round(it.at) });
    },
    [],
  );

  // What changes on the page while it is recorded is what is shown.
  useEffect(() => {
    const before = seenRef.current;
    seenRef.current = state;
    const take = takeRef.current;
    if (!take || phase === "sending") return;
    for (const it of whatHappened(clips, before, state, nowMs())) tell(it);
  }, [state, clips, phase, nowMs, tell]);

  const keptTake = useCallback(
    (): KeptTake | null => {
      const take = takeRef.current;
      return take && { takeId: take.takeId, ...target, hasVoice: take.hasVoice, list: listOf(clips, lined, take.start, take.happenings, nowMs()) };
    },
    [target, clips, lined, nowMs],
  );
  const keepRef = useRef(keptTake);
  useEffect(() => {
    keepRef.current = keptTake;
  });
  const keepNow = useCallback(() => {
    const kept = keepRef.current();
    if (kept) keepOnDevice(kept).then(() => setIsKeptHere(true), () => setIsKeptHere(false));
  }, []);

  const openMicrophone = useCallback(async (): Promise<VoiceRecorder | null> => {
    setVoice("asking");
    const opened = await VoiceRecorder.open(() => {
      // What was heard so far is put away at once.
      void microphoneRef.current?.stop();
      microphoneRef.current = null;
      setVoice("lost");
    });
    if (typeof opened === "string") {
      setVoice(opened);
      return null;
    }
    microphoneRef.current = opened;
    setVoice("open");
    return opened;
  }, []);

  const start = async (withVoice: boolean) => {
    setProblem(null);
    const microphone = withVoice ? (microphoneRef.current ?? (await openMicrophone())) : null;
    if (withVoice && !microphone) return;
    const takeId = newId();
    let begunMs = performance.now();
    if (microphone) {
      begunMs = await microphone.start((piece) => {
        const take = takeRef.current;
        if (take?.takeId !== takeId) return;
        keepPiece(takeId, take.pieces++, piece).catch(() => setIsKeptHere(false));
      });
    }
    takeRef.current = { takeId, clock: runClock(stoppedClock, begunMs), start: startOf(clips, seenRef.current), happenings: [], pieces: 0, hasVoice: microphone !== null };
    keepNow();
    setPhase("recording");
  };

  const pause = useCallback(() => {
    const take = takeRef.current;
    if (!take) return;
    microphoneRef.current?.pause();
    take.clock = stopClock(take.clock, performance.now());
    setPhase("paused");
    keepNow();
  }, [keepNow]);

  const goOn = () => {
    const take = takeRef.current;
    if (!take) return;
    microphoneRef.current?.resume();
    take.clock = runClock(take.clock, performance.now());
    setPhase("recording");
  };

  const send = async (kept: KeptTake) => {
    setPhase("sending");
    const refused = await sendTake(kept);
    setProblem(refused);
    setWalkthroughId(refused ? null : kept.walkthroughId);
    setPhase(refused ? "unsent" : "kept");
  };

  const finish = useCallback(async () => {
    const take = takeRef.current;
    if (!take) return;
    take.clock = stopClock(take.clock, performance.now());
    setPhase("sending");
    await microphoneRef.current?.stop();
    microphoneRef.current?.close();
    microphoneRef.current = null;
    const kept = keepRef.current();
    takeRef.current = null;
    if (!kept) return;
    // The last piece is being put away.
    await keepOnDevice(kept).catch(() => setIsKeptHere(false));
    await send(kept);
  }, []);

  const discard = async () => {
    const take = takeRef.current;
    takeRef.current = null;
    await microphoneRef.current?.stop();
    if (take) await dropFromDevice(take.takeId).catch(() => undefined);
    setPhase("idle");
  };

  // Kept on this device while it runs, ended when it is as long as one may be, and not left by mistake.
  useEffect(() => {
    if (phase !== "recording") return;
    const timer = setInterval(() => {
      keepNow();
      if (nowMs() > MOST_MS - 5000 || (takeRef.current?.happenings.length ?? 0) >= MOST_HAPPENINGS) void finish();
    }, KEEP_EACH_MS);
    return () => clearInterval(timer);
  }, [phase, keepNow, nowMs, finish]);
  useEffect(() => {
    if (phase !== "recording" && phase !== "paused") return;
    const stay = (event: BeforeUnloadEvent) => event.preventDefault();
    const leave = () => keepNow();
    window.addEventListener("beforeunload", stay);
    document.addEventListener("visibilitychange", leave);
    return () => {
      window.removeEventListener("beforeunload", stay);
      document.removeEventListener("visibilitychange", leave);
    };
  }, [phase, keepNow]);
  useEffect(() => () => microphoneRef.current?.close(), []);

  return {
    phase, voice, problem, isKeptHere, walkthroughId, nowMs, tell, start, pause, goOn, finish, discard, send,
    isRunning: phase === "recording",
    level: useCallback(() => microphoneRef.current?.level() ?? 0, []),
    /** What runs from now on, entered with the instant from which it runs. */
    tellPlaying: useCallback(
      ({ steadyMs, rate, fromSeconds, toSeconds, clipIds }: Begun) => {
        const take = takeRef.current;
        if (!take) return;
        tell({ at: msOf(take.clock, steadyMs), kind: "play", rate, fromSeconds, toSeconds, clips: clipIds.map((id) => clips.findIndex(({ clip }) => clip.id === id)).filter((i) => i >= 0) });
      },
      [clips, tell],
    ),
  };
}

export type Recording = ReturnType<typeof useRecording>;
