import { useCallback, useEffect, useMemo, useReducer, useRef, useState } from "react";
import { flushSync } from "react-dom";
import { besideReducer, type BesideAction, type BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import type { Look } from "@/lib/domains/clips/rules";
import { followList, type ClipTimes, type Stand } from "../../list/rules";
import type { TakeList } from "../../list/schema";
import { placeAt } from "../../rules";
import type { WalkthroughView } from "../../view";
import { ReplayClock } from "./replay-clock";
import { clipsOfTake, stateOf } from "./state-of";

/** One take of the walkthrough, ready to be followed. */
interface OpenTake {
  readonly list: TakeList;
  readonly at: (ms: number) => Stand;
  readonly clips: ReturnType<typeof clipsOfTake>["clips"];
  readonly lined: ReturnType<typeof clipsOfTake>["lined"];
}

/** What is on the page: an instant of the talk, or the pictures in the hands of the one who looks. */
interface Shown {
  readonly takeId: string;
  readonly ms: number;
  readonly stand: Stand;
}

export const REPLAY_RATES = [0.75, 1, 1.25, 1.5, 2] as const;

/** The replay of a walkthrough: what is shown now, and what one can do with it. */
export function useReplay(view: WalkthroughView, voice: HTMLAudioElement | null) {
  const takes = useMemo(
    () => new Map(view.takes.flatMap(({ id, list }): [string, OpenTake][] => {
      if (!list) return [];
      const { clips, lined } = clipsOfTake(list, view.clips);
      const times: ClipTimes = list.clips.map(({ clipId }) => view.clips[clipId]?.clip?.frameTimes ?? null);
      return [[id, { list, clips, lined, at: followList(list, times) }]];
    })),
    [view],
  );
  const chapters = useMemo(() => view.chapters.filter(({ takeId }) => takes.has(takeId)), [view, takes]);
  const [isBlocked, setIsBlocked] = useState(false);
  /** Whether the pictures that are told of are on the screen, as the stage says at each paint. */
  const arePicturesThereRef = useRef(false);
  const clock = useMemo(() => {
    const voices = Object.fromEntries(view.takes.map(({ id, voiceUrl, voiceMs }) => [id, { url: voiceUrl, lengthMs: voiceMs ?? 0 }]));
    return voice ? new ReplayClock(voice, chapters, voices, () => setIsBlocked(true)) : null;
  }, [view, voice, chapters]);

  const standAt = useCallback(
    (ms: number): Shown | null => {
      const place = placeAt(chapters, ms);
      const take = place && takes.get(place.stretch.takeId);
      return place && take ? { takeId: place.stretch.takeId, ms, stand: take.at(place.takeMs) } : null;
    },
    [chapters, takes],
  );
  const [shown, setShown] = useState<Shown | null>(() => standAt(0));
  const [isRunning, setIsRunning] = useState(false);
  const [rate, setRate] = useState(1);
  const [looks, setLooks] = useState<Readonly<Record<string, Look>>>({});
  const keyRef = useRef("");

  const show = useCallback(
    (ms: number) => {
      const now = standAt(ms);
      // The page is drawn anew when something on it changes: a picture, a drawing, or the tenth of a second that is told.
      const key = now ? `${now.takeId} ${Math.floor(ms / 100)} ${JSON.stringify(now.stand)}` : "";
      if (!now || key === keyRef.current) return;
      keyRef.current = key;
      setShown(now);
    },
    [standAt],
  );

  useEffect(() => {
    if (!isRunning || !clock) return;
    let request = 0;
    const turn = (steadyMs: number) => {
      // What is told of an instant is painted with it: drawn later it would be a frame late.
      flushSync(() => show(clock.turn(steadyMs, arePicturesThereRef.current)));
      if (clock.isRunning) request = requestAnimationFrame(turn);
      else setIsRunning(false);
    };
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isRunning, clock, show]);
  useEffect(() => () => clock?.hold(), [clock]);

  const take = shown ? takes.get(shown.takeId) : undefined;
  const lined = useMemo(() => take?.lined ?? [], [take]);
  const [hand, byHand] = useReducer((now: BesideState | null, action: BesideAction | { readonly kind: "take"; readonly state: BesideState } | { readonly kind: "let-go" }): BesideState | null => {
    if (action.kind === "take") return action.state;
    if (action.kind === "let-go") return null;
    return now ? besideReducer(lined)(now, action) : now;
  }, null);

  const told = useMemo(() => (take && shown ? stateOf(take.list, shown.stand, looks) : null), [take, shown, looks]);
  const play = () => {
    if (!clock) return;
    setIsBlocked(false);
    byHand({ kind: "let-go" });
    clock.play();
    setIsRunning(clock.isRunning);
  };
  const hold = () => {
    clock?.hold();
    setIsRunning(false);
  };
  return {
    chapters, shown, take, hand, state: hand ?? told, isRunning, isBlocked, rate, totalMs: clock?.totalMs ?? 0,
    play, hold, arePicturesThereRef,
    seek: (ms: number) => {
      if (!clock) return;
      byHand({ kind: "let-go" });
      clock.seek(ms);
      show(clock.ms);
    },
    setRate: (to: number) => {
      clock?.setRate(to);
      setRate(to);
    },
    /** Takes the pictures in hand: the talk holds, and goes on from where it held. Coming closer needs no holding. */
    act: (action: BesideAction) => {
      if (action.kind === "look" && !hand) return setLooks((now) => ({ ...now, [action.clipId]: action.look }));
      // A picture that is only touched is not taken out of the talk.
      if (action.kind === "take-in-hand" && !hand) return;
      if (!hand && told) {
        hold();
        byHand({ kind: "take", state: { ...told, isPlaying: false } });
      }
      byHand(action);
    },
    letGo: () => byHand({ kind: "let-go" }),
  };
}
