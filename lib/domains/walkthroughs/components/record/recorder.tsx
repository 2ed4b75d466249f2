"use client";
import Link from "next/link";
import { useEffect, useMemo, useReducer, useRef, useState, type CSSProperties, type KeyboardEvent } from "react";
import { arrows } from "@/lib/domains/clips/components/arrow-keys";
import { heardBeside } from "@/lib/domains/clips/components/beside/beside-keys";
import { besideReducer, movingTogether, startBeside, type BesideAction, type BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import { BesideSteps, EventJumps } from "@/lib/domains/clips/components/beside/beside-steps";
import { lineUp } from "@/lib/domains/clips/components/beside/lined-clip";
import type { MarkTool } from "@/lib/domains/clips/components/gesture";
import { WordsForm } from "@/lib/domains/clips/components/words-form";
import { eventNames } from "@/lib/domains/clips/components/words";
import { wholeLook, zoomAbout } from "@/lib/domains/clips/rules";
import type { ClipBeside, MarkView } from "@/lib/domains/clips/view";
import { newId } from "@/lib/core/ids";
import type { Called } from "../../list/schema";
import type { TalkPoints } from "../../view";
import { TalkStage } from "../talk-stage";
import { handAt, handUp, takeTool, writeWords, type ByHand } from "./draw-by-hand";
import { KeptOnDevice } from "./kept-on-device";
import { PointAt } from "./point-at";
import { RecordingBar } from "./recording-bar";
import { useRecording, type RecordingTarget } from "./use-recording";
import { useSteadyPlaying } from "./use-steady-playing";

interface RecorderProps {
  readonly clips: readonly ClipBeside[];
  readonly target: Omit<RecordingTarget, "walkthroughId" | "userId"> & { readonly walkthroughId: string | null };
  readonly points: TalkPoints;
  /** Who talks: what was not sent is offered to nobody else on this device. */
  readonly userId: string;
}

const TOOLS: readonly (readonly [MarkTool, string])[] = [["line", "Line"], ["angle", "Angle"], ["ring", "Ring"], ["pen", "Pen"], ["words", "Words"]];

/** Talk over real frames: what is shown, stepped, played and drawn while one speaks is kept as a list, and the voice beside it. */
export function Recorder({ clips, target: given, points, userId }: RecorderProps) {
  const views = useMemo(() => clips.map(({ clip }) => clip), [clips]);
  const lined = useMemo(() => lineUp(views, false), [views]);
  const [state, dispatch] = useReducer((now: BesideState, action: BesideAction) => besideReducer(lined)(now, action), { clips: lined, flipped: clips.filter((it) => it.startsFlipped).map(({ clip }) => clip.id) }, startBeside);
  const [freshId] = useState(newId);
  const target = useMemo(() => ({ ...given, userId, walkthroughId: given.walkthroughId ?? freshId }), [given, userId, freshId]);
  const recording = useRecording(target, clips, lined, state);
  const { tell, nowMs, phase } = recording;
  useSteadyPlaying(lined, state, dispatch, recording.tellPlaying);
  const [called, setCalled] = useState<Called | null>(null);
  const [hand, setHand] = useState<ByHand | null>(null);
  const handRef = useRef<ByHand | null>(null);
  const [drawn, setDrawn] = useState<readonly (MarkView & { readonly clipId: string })[]>([]);
  const isOn = phase === "recording" || phase === "paused";
  const together = useMemo(() => movingTogether(lined, state).map(({ id }) => id), [lined, state]);
  const marks = useMemo(
    () => Object.fromEntries(clips.map(({ clip }) => [clip.id, [...clip.marks, ...drawn.filter(({ clipId }) => clipId === clip.id)]])),
    [clips, drawn],
  );
  const inHand = lined.find(({ id }) => id === state.inHand) ?? lined[0];
  const place = inHand ? state.places[inHand.id] : undefined;
  const picture = { width: inHand?.clip.widthPx ?? 1, height: inHand?.clip.heightPx ?? 1 };
  const pictureOf = (clipId: string) => {
    const clip = views.find(({ id }) => id === clipId);
    return { width: clip?.widthPx ?? 1, height: clip?.heightPx ?? 1 };
  };

  const toHand = (next: ByHand | null) => {
    handRef.current = next;
    setHand(next);
  };
  const chooseTool = (tool: MarkTool) => {
    if (hand?.tool === tool || !inHand) return toHand(null);
    dispatch({ kind: "play", isPlaying: false });
    toHand(takeTool(tool, inHand.id, picture));
  };
  const moveHand = (clipId: string, to: { readonly x: number; readonly y: number }) => handRef.current && toHand(handAt(handRef.current, clipId, to, pictureOf(clipId), nowMs()));
  const letGo = () => handRef.current && finishMark(handUp(handRef.current, nowMs()));
  const finishMark = ({ next, done }: ReturnType<typeof handUp>) => {
    toHand(next);
    if (!done) return;
    const [id, frameIndex] = [`m${drawn.length + 1}`, state.places[done.clipId]?.frameIndex ?? 0];
    setDrawn([...drawn, { id, clipId: done.clipId, frameIndex, shape: done.shape }]);
    if (!isOn) return;
    const clip = clips.findIndex((it) => it.clip.id === done.clipId);
    tell({ at: done.begunMs, kind: "mark", id, clip, frame: frameIndex, shape: done.shape as never, overMs: done.overMs, ...(done.paceMs ? { paceMs: [...done.paceMs] } : {}) });
  };
  const takeLastAway = () => {
    const last = drawn.at(-1);
    if (!last) return;
    setDrawn(drawn.slice(0, -1));
    if (isOn) tell({ at: nowMs(), kind: "unmark", id: last.id });
  };
  const pointAt = (to: Called | null) => {
    setCalled(to);
    if (isOn) tell({ at: nowMs(), kind: "call", called: to });
  };
  const act = (action: BesideAction) => {
    dispatch(action);
    if (action.kind === "go-event" && isOn) tell({ at: nowMs(), kind: "call", called: { kind: "event", id: action.event, name: eventNames[action.event] } });
  };
  // What was drawn before the talk began stands on the pictures when it begins.
  const begin = async (withVoice: boolean) => {
    act({ kind: "play", isPlaying: false });
    setDrawn([]);
    await recording.start(withVoice);
  };
  // What runs is held with the talk: in a pause nobody sees it run.
  const hold = (then: () => void) => () => {
    dispatch({ kind: "play", isPlaying: false });
    then();
  };
  useEffect(() => {
    if (called && phase === "recording" && nowMs() < 500) tell({ at: nowMs(), kind: "call", called });
    // Once, as the recording begins: what was pointed at before still is.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [phase]);

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const target = event.target instanceof HTMLElement ? event.target : null;
    const by = arrows[event.key];
    if (hand && target?.closest(".frame") && !event.ctrlKey && !event.metaKey && !event.altKey) {
      const far = event.shiftKey ? 20 : 4;
      if (by) {
        event.preventDefault();
        const to = { x: hand.cross.x + by.x * far, y: hand.cross.y + by.y * far };
        return hand.drawing ? moveHand(hand.clipId, to) : toHand({ ...hand, cross: to });
      }
      if (event.key === "Enter") {
        event.preventDefault();
        return hand.drawing || hand.tool === "words" ? void letGo() : moveHand(hand.clipId, hand.cross);
      }
      if (event.key === "Escape") {
        event.preventDefault();
        return toHand(null);
      }
    }
    const action = heardBeside(event, state, views.map(({ id }) => id));
    if (!action) return;
    event.preventDefault();
    act(action);
  };

  const ratio = Math.max(...views.map(({ widthPx, heightPx }) => widthPx / heightPx));
  if (phase === "kept" && recording.walkthroughId) {
    return (
      <section className="flow">
        <h2>The talk is kept</h2>
        <p>Its chapters stand by what you pointed at. Look at it once before you send it.</p>
        <div className="bar-line">
          <Link className="btn main" href={`/players/${given.playerId}/walkthroughs/${recording.walkthroughId}`}>Look at it</Link>
        </div>
      </section>
    );
  }
  return (
    <div className="bench beside talk" style={{ "--aspect": ratio, "--across": clips.length > 1 && !state.isLaidOver ? 2 : 1 } as CSSProperties} onKeyDown={onKeyDown} data-phase={phase}>
      <div className="at-hand">
        <RecordingBar recording={recording} onStart={begin} onPause={hold(recording.pause)} onGoOn={hold(recording.goOn)} />
        <TalkStage
          clips={clips} lined={lined} state={state} dispatch={act} marks={marks} together={together} travel={state.travel}
          drawing={hand ? { clipId: hand.clipId, gesture: hand.drawing ? { kind: "draw", ...hand.drawing } : { kind: "none" }, cross: hand.cross, move: moveHand, place: letGo } : null}
        />
        <BesideSteps
          state={state} dispatch={act} hasSeveral={clips.length > 1} zoom={place?.look.zoom ?? 1}
          onCloser={() => inHand && place && act({ kind: "look", clipId: inHand.id, look: zoomAbout(place.look, 2, place.look.centre, picture, picture) })}
          onWhole={() => inHand && act({ kind: "look", clipId: inHand.id, look: wholeLook(picture) })}
        />
        {inHand ? <EventJumps lined={inHand} frameIndex={place?.frameIndex ?? 0} dispatch={act} /> : null}
      </div>
      <aside className="aside" aria-label="While you talk">
        <PointAt points={points} called={called} onCall={pointAt} />
        <section aria-label="Draw">
          <h2>Draw</h2>
          <div className="tools" role="group" aria-label="Draw on a picture">
            {TOOLS.map(([tool, name]) => (
              <button key={tool} type="button" className="btn" aria-pressed={hand?.tool === tool} disabled={state.isLaidOver && clips.length > 1} onClick={() => chooseTool(tool)}>{name}</button>
            ))}
          </div>
          {hand?.wordsAt ? <WordsForm start="" onDone={(text) => finishMark(writeWords(hand, text, nowMs()))} onCancel={() => toHand(null)} /> : null}
          {hand && !hand.wordsAt ? (
            <p className="note" role="status">
              {hand.tool === "words" ? "Press a picture where the words shall stand, then write them." : "Drag on a picture."} By key, with the picture in focus: arrows move the cross, {hand.tool === "words" ? "Enter sets the place" : "Enter begins and ends"}, Escape puts the tool away.
            </p>
          ) : null}
          <button type="button" className="btn" disabled={drawn.length === 0} onClick={takeLastAway}>Take the last away</button>
        </section>
        {clips.length > 1 ? (
          <section aria-label="How they stand">
            <div className="pick" role="group" aria-label="How they stand">
              <button type="button" aria-pressed={!state.isLaidOver} onClick={() => act({ kind: "lay-over", isLaidOver: false })}>Side by side</button>
              <button type="button" aria-pressed={state.isLaidOver} aria-keyshortcuts="O" onClick={() => act({ kind: "lay-over", isLaidOver: true })}>Laid over</button>
            </div>
            {clips.map(({ clip, caption }, i) => (
              <button key={clip.id} type="button" className="btn" aria-pressed={state.places[clip.id]?.isFlipped ?? false} onClick={() => act({ kind: "flip", clipId: clip.id })}>
                {state.places[clip.id]?.isFlipped ? "Flipped" : "Flip"} {i + 1} · {caption}
              </button>
            ))}
          </section>
        ) : null}
        <KeptOnDevice userId={userId} playerId={given.playerId} isBusy={isOn || phase === "sending"} onSend={recording.send} />
      </aside>
    </div>
  );
}
