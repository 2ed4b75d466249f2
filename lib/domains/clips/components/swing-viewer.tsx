"use client";
import { useCallback, useEffect, useMemo, useReducer, useRef, useState, type CSSProperties, type ReactNode } from "react";
import { clockSecondsOf, contactTickOf, insidePicture, lineUpEvents, nextPoint, pointNeeds, stepFrame, waitingNeeds, wholeLook, zoomAbout, type Spot, type ViewerCommand, type WantedCheckpoint } from "../rules";
import type { ClipView, EventId, EventView, MarkShape, MarkView, PointId, PointView } from "../view";
import { EventGuesses, guessInTurn, openGuesses, type EventGuess } from "./event-guesses";
import { EventKeys } from "./event-keys";
import { FollowBat } from "./following/follow-bat";
import { useFollowing } from "./following/use-following";
import { eventAtFrame, findEvent, findPoint, keptOf, overPresent, type Change } from "./kept";
import { MarkTools } from "./mark-tools";
import { markedFrames } from "./marked-frames";
import { MarksElsewhere } from "./marks-elsewhere";
import { nextStep } from "./next-step";
import { PointPanel } from "./point-panel";
import { isSameRun, PointRuns } from "./point-runs";
import { BestFrame } from "./points/best-frame";
import { useBetween } from "./points/use-between";
import { isOpen } from "./points/point-known";
import { SeveralPoints } from "./points/several-points";
import { usePointBatches } from "./points/use-point-batches";
import { PointsOnFrame } from "./points-on-frame";
import type { Keeping } from "./sending";
import { Stage } from "./stage";
import { StepRow } from "./step-row";
import { SwingClock } from "./swing-clock";
import { useBox } from "./use-box";
import { useCloseStart } from "./use-close-start";
import { useFocusKept } from "./use-focus-kept";
import { useFrameSource } from "./use-frame-source";
import { useKeeping } from "./use-keeping";
import { useLeaveGuard } from "./use-leave-guard";
import type { PlateTaps } from "./use-plate-taps";
import { usePlaying } from "./use-playing";
import { handleViewerKey } from "./viewer-keys";
import { ViewerNotices } from "./viewer-notices";
import { waitingRuns, type PointRun } from "./waiting-runs";
import { lookIn, startState, viewerReducer } from "./viewer-state";

export interface SwingViewerProps extends Keeping {
  readonly clip: ClipView;
  /** Words in the corner of the picture, "This swing". */
  readonly caption: string;
  /** The checkpoints whose points are asked for. */
  readonly wanted: readonly WantedCheckpoint[];
  /** The points that are wanted on every frame of a stretch, for the events as they stand. */
  readonly runs?: readonly PointRun[];
  /** Where events that nobody has set probably are, for the points as they stand. */
  readonly guesses?: readonly EventGuess[];
  /** Home plate while its corners are being marked: then a tap on the picture is a corner. */
  readonly taps?: PlateTaps;
  /** Frame shown first; contact when it is not said. */
  readonly startFrame?: number;
  /** Whether points are suggested here, and why not. */
  readonly suggesting?: ReactNode;
  /** What can be done with the frame that is shown, under the clock. */
  readonly withFrame?: (frameIndex: number) => ReactNode;
  /** What stands beside the picture under points and marks; it can show a frame. */
  readonly readings?: (onGo: (frameIndex: number) => void) => ReactNode;
  /** Every point and event as they stand now; while a point is being dragged it is `moving`, and already where it is dragged. */
  readonly onPointsChanged?: (points: readonly PointView[], events: readonly EventView[], moving: PointView | null) => void;
}

/** One clip, stepped by its own frames: events by key, points under a magnifier, marks on a frame. */
export function SwingViewer({ clip, caption, wanted, runs = noRuns, guesses = noGuesses, taps, startFrame, suggesting, withFrame, readings, onPointsChanged, ...keeping }: SwingViewerProps) {
  const [state, dispatch] = useReducer(viewerReducer, null, () =>
    startState(
      keptOf(clip), clip.frameTimes.ticks.length, { width: clip.widthPx, height: clip.heightPx },
      startFrame ?? clip.events.find((it) => it.event === "contact")?.frameIndex ?? 0,
    ),
  );
  const { commit, undo, redo } = useKeeping(dispatch, keeping);
  const leaving = useLeaveGuard(state.pending, state.failure !== null);
  const status = useFrameSource(clip);
  const source = status.kind === "ready" ? status.source : null;
  const stageRef = useRef<HTMLDivElement>(null);
  const box = useBox(stageRef);
  const { frameIndex, gesture, picture } = state;
  // Events set on another clip of the swing move with this clip's contact.
  const kept = useMemo(() => ({ ...state.kept, events: lineUpEvents(clip, state.kept.events) }), [clip, state.kept]);
  const { canMeasure, canMark } = clip.abilities;
  const isSlow = usePlaying(state, dispatch, source, clip);

  const drawnRef = useRef(0);
  const isFirstRef = useRef(true);
  const { events: sentEvents, points: sentPoints, unseenPoints: sentUnseen, marks: sentMarks } = clip;
  useEffect(() => {
    if (isFirstRef.current) isFirstRef.current = false;
    else dispatch({ kind: "take", kept: { events: sentEvents, points: sentPoints, unseenPoints: sentUnseen, marks: sentMarks } });
  }, [sentEvents, sentPoints, sentUnseen, sentMarks]);
  const dragged = gesture.kind === "point" ? gesture : null;
  const moving = useMemo<PointView | null>(() => dragged && { frameIndex, point: dragged.point, ...dragged.at, source: "coach" }, [dragged, frameIndex]);
  const livePoints = useMemo(() => (moving ? [...kept.points.filter((it) => it.frameIndex !== moving.frameIndex || it.point !== moving.point), moving] : kept.points), [kept.points, moving]);
  const tellRef = useRef(onPointsChanged);
  useEffect(() => {
    tellRef.current = onPointsChanged;
  });
  useEffect(() => tellRef.current?.(livePoints, kept.events, moving), [livePoints, kept.events, moving]);
  const onGo = useCallback((at: number) => dispatch({ kind: "show", frameIndex: at }), []);
  useCloseStart(box, clip, state.look, (look) => dispatch({ kind: "look", look }));

  const needs = useMemo(() => pointNeeds(wanted), [wanted]);
  const waiting = useMemo(() => (canMeasure ? waitingNeeds(needs, kept.events, kept.points, kept.unseenPoints) : []), [canMeasure, needs, kept]);
  const next = nextPoint(waiting, frameIndex);
  const between = useBetween(clip, kept, runs, frameIndex, onGo);
  const following = useFollowing(clip, kept, frameIndex, source, commit);
  const openRuns = useMemo(() => (canMeasure ? waitingRuns(between.openRuns, kept.points, kept.unseenPoints, frameIndex) : []), [canMeasure, between.openRuns, kept, frameIndex]);
  const [begun, setBegun] = useState<PointRun | null>(null);
  const run = (begun && openRuns.find((it) => isSameRun(it, begun))) ?? null;
  const isMarkingPlate = canMeasure && (taps?.isAsking ?? false);
  const openOf = (it: PointRun) => it.frames.filter((frame) => isOpen(findPoint(kept, frame, it.point)));
  const dueHere = between.due ?? (run ? (run.nextFrame === frameIndex ? run.point : null) : next?.frameIndex === frameIndex ? next.point : null);
  const askedPoint = !canMeasure || state.isPlaying || isMarkingPlate ? null : (state.chosenPoint ?? dueHere);
  const points = kept.points.filter((it) => it.frameIndex === frameIndex);
  const unseen = kept.unseenPoints.filter((it) => it.frameIndex === frameIndex);
  const marks = kept.marks.filter((it) => it.frameIndex === frameIndex);
  const cross = state.cross ?? between.points.find((it) => it.point === askedPoint) ?? expectedSpot(kept.points, askedPoint, frameIndex, { x: picture.width / 2, y: picture.height / 2 });
  const elsewhere = useMemo(() => markedFrames(clip, kept.events, kept.marks, frameIndex), [clip, kept.events, kept.marks, frameIndex]);

  useFocusKept(stageRef, source !== null, `${frameIndex} ${gesture.kind} ${askedPoint} ${state.editedMark} ${marks.length} ${points.length} ${unseen.length}`);

  const lastPlaced = justPlaced(state.undo.at(-1), frameIndex);
  const batches = usePointBatches(kept, frameIndex, clip.view, canMeasure, askedPoint ?? lastPlaced, commit);
  const newMark = (shape: MarkShape): Change => {
    const id = `drawn-${(drawnRef.current += 1)}`;
    return { kind: "mark", id, before: null, after: { id, frameIndex, shape } };
  };
  const changePoint = (point: PointId, after: PointView | "unseen" | null) => commit({ kind: "point", frameIndex, point, before: findPoint(kept, frameIndex, point), after });
  const keepMine = () => {
    if (!state.overtaken) return;
    commit(overPresent(state.overtaken, kept));
  };
  const settle = (after: (point: PointId) => PointView | "unseen") => {
    if (!askedPoint) return;
    changePoint(askedPoint, after(askedPoint));
    dispatch({ kind: "choose-point", point: null });
    const left = run && askedPoint === run.point ? openOf(run).filter((it) => it !== frameIndex) : [];
    const following = left.find((it) => it > frameIndex) ?? left.at(-1);
    if (following !== undefined) dispatch({ kind: "show", frameIndex: following });
  };
  const placeHere = () => settle((point) => ({ frameIndex, point, ...insidePicture(cross, picture), source: "coach" }));
  const setEvent = (event: EventId, at: number) => {
    const after = canMeasure ? eventAtFrame(clip, event, at) : null;
    if (after) commit({ kind: "event", event, before: findEvent(kept, event), after });
  };
  const goEvent = (event: EventId) => {
    const at = findEvent(kept, event)?.frameIndex;
    if (at != null) dispatch({ kind: "show", frameIndex: at });
  };
  const clearEvent = (event: EventId) => {
    const before = findEvent(kept, event);
    if (canMeasure && before) commit({ kind: "event", event, before, after: null });
  };
  const open = useMemo(() => (canMeasure ? openGuesses(guesses, kept.events) : noGuesses), [canMeasure, guesses, kept.events]);
  const takeGuess = (guess: EventGuess | null) => {
    if (!guess) return;
    setEvent(guess.event, guess.frameIndex);
    dispatch({ kind: "show", frameIndex: guess.frameIndex });
  };
  const nudgeEvent = (by: -1 | 1) => {
    const inHand = state.eventInHand && findEvent(kept, state.eventInHand);
    if (!inHand || inHand.frameIndex === null || !canMeasure) return;
    const at = stepFrame(inHand.frameIndex, by, state.frameCount);
    setEvent(inHand.event, at);
    dispatch({ kind: "show", frameIndex: at });
  };
  const takeMark = (id: string, after: MarkView | null) => {
    const before = kept.marks.find((it) => it.id === id);
    if (before && canMark) commit({ kind: "mark", id, before, after });
  };
  const obey = (command: ViewerCommand) => {
    if (batches.obey(command) || between.obey(command) || following.obey(command)) return;
    if (command.kind === "step") dispatch(command);
    else if (command.kind === "go-end") dispatch({ kind: "show", frameIndex: command.end === "first" ? 0 : state.frameCount - 1 });
    else if (command.kind === "set-event") setEvent(command.event, frameIndex);
    else if (command.kind === "go-event") goEvent(command.event);
    else if (command.kind === "nudge-event") nudgeEvent(command.by);
    else if (command.kind === "clear-event") kept.events.filter((it) => it.frameIndex === frameIndex && it.event === state.eventInHand).forEach((it) => clearEvent(it.event));
    else if (command.kind === "take-guess") takeGuess(guessInTurn(open, frameIndex));
    else if (command.kind === "play-or-hold") dispatch({ kind: "play", isPlaying: !state.isPlaying });
    else if (command.kind === "undo") undo(state);
    else if (command.kind === "redo") redo(state);
    else {
      setBegun(null);
      between.onStop();
      following.onStop();
      taps?.stop();
      dispatch({ kind: "cancel" });
    }
  };

  return (
    <div className="bench" data-unsent={state.pending} style={{ "--aspect": picture.width / picture.height } as CSSProperties} onKeyDown={(event) => handleViewerKey({ state, dispatch, cross, marks, commit, newMark, obey, isAiming: isMarkingPlate, isBusy: run !== null || following.state === "working" || following.state === "found", placeHere: isMarkingPlate ? () => taps?.take(cross, frameIndex) : askedPoint ? placeHere : null }, event)}>
      <div className="at-hand">
        <ViewerNotices status={status} failure={state.failure} isSlow={isSlow} leaving={leaving} onKeepMine={state.overtaken && keepMine} onRead={() => dispatch({ kind: "read-failure" })} />
        <Stage
          stageRef={stageRef} clip={clip} caption={caption} status={status} box={box} state={state} dispatch={dispatch} points={points} between={between.points} followed={following.spots} marks={marks}
          askedPoint={askedPoint} cross={askedPoint || state.tool || isMarkingPlate ? cross : null} taps={isMarkingPlate ? taps : undefined} commit={commit} newMark={newMark}
        />
        <ul className="mark-words only-phone" aria-hidden="true">
          {marks.map((it) => (it.shape.kind === "words" ? <li key={it.id}>“{it.shape.text}”</li> : null))}
        </ul>
        <SwingClock clip={clip} events={kept.events} guesses={open} frameIndex={frameIndex} onShow={(at) => dispatch({ kind: "show", frameIndex: at })} />
        <StepRow
          isPlaying={state.isPlaying} rate={state.rate} zoom={box ? lookIn(state, box).zoom : 1} canUndo={state.undo.length > 0} canRedo={state.redo.length > 0}
          onStep={(by) => dispatch({ kind: "step", by })} onPlay={(isPlaying) => dispatch({ kind: "play", isPlaying })} onRate={(rate) => dispatch({ kind: "rate", rate })}
          onCloser={() => box && dispatch({ kind: "look", look: zoomAbout({ ...state.look, centre: cross }, 2, cross, picture, box) })}
          onWhole={() => dispatch({ kind: "look", look: wholeLook(picture) })} onUndo={() => undo(state)} onRedo={() => redo(state)}
        />
        <EventKeys
          clip={clip} events={kept.events} frameIndex={frameIndex} eventInHand={state.eventInHand} onSet={(event) => setEvent(event, frameIndex)}
          onGo={goEvent} onNudge={nudgeEvent} onClear={clearEvent}
        />
        {withFrame?.(frameIndex)}
        <EventGuesses open={open} frameIndex={frameIndex} onGo={onGo} onTake={takeGuess} />
      </div>
      <aside className="aside" aria-label="Points and marks">
        {canMeasure ? (
          <>
            <PointPanel
              source={source} frameIndex={frameIndex} picture={picture} point={askedPoint} elsewhere={next?.frameIndex === frameIndex ? null : next}
              waitingCount={waiting.length} hasRuns={openRuns.length > 0} nextStep={nextStep(clip, kept.events)} cross={cross} onCross={(at) => dispatch({ kind: "cross", at })}
              onPlace={placeHere} onUnseen={() => settle(() => "unseen")} onGo={onGo}
            />
            <PointRuns
              runs={openRuns} inHand={run} onStop={() => setBegun(null)}
              onBegin={(it) => {
                setBegun(it);
                onGo(openOf(it)[0] ?? it.nextFrame);
              }}
            />
            <BestFrame between={between} frameIndex={frameIndex} secondsAt={(at) => clockSecondsOf(clip, at, contactTickOf(kept.events))} />
            <FollowBat following={following} secondsAt={(at) => clockSecondsOf(clip, at, contactTickOf(kept.events))} />
            <SeveralPoints batches={batches} frameIndex={frameIndex} last={state.undo.at(-1)} />
            <PointsOnFrame
              points={points} unseen={unseen} justPlaced={lastPlaced} point={askedPoint}
              onChoose={(point) => dispatch({ kind: "choose-point", point })} onForget={(point) => changePoint(point, null)} onTake={batches.onTakeOne}
            />
            {suggesting}
          </>
        ) : null}
        <MarkTools
          marks={marks} tool={state.tool} isWriting={gesture.kind === "write"} editedMark={state.editedMark} canMark={canMark}
          onTool={(tool) => dispatch({ kind: "tool", tool })} onEdit={(id) => dispatch({ kind: "edit-mark", id })} onRemove={(id) => takeMark(id, null)}
          onWrite={(text) => {
            if (gesture.kind === "write") commit(newMark({ v: 1, kind: "words", ...gesture.at, text }));
            dispatch({ kind: "end" });
          }}
          onRewrite={(id, text) => {
            const mark = kept.marks.find((it) => it.id === id);
            if (mark?.shape.kind === "words") takeMark(id, { ...mark, shape: { ...mark.shape, text } });
            dispatch({ kind: "edit-mark", id: null });
          }}
        />
        <MarksElsewhere frames={elsewhere} onGo={onGo} />
        {readings?.(onGo)}
      </aside>
    </div>
  );
}

const noGuesses: readonly EventGuess[] = [];
const noRuns: readonly PointRun[] = [];

/** Where a point is likely to be: where it stands on this frame, else on the nearest frame that has it, else where one last was. */
function expectedSpot(points: readonly PointView[], point: PointId | null, frameIndex: number, otherwise: Spot): Spot {
  const same = points.filter((it) => it.point === point);
  same.sort((a, b) => Math.abs(a.frameIndex - frameIndex) - Math.abs(b.frameIndex - frameIndex));
  const likely = same[0] ?? points.findLast((it) => it.frameIndex === frameIndex);
  return likely ? { x: likely.x, y: likely.y } : otherwise;
}

/** The point that the last change placed on this frame. */
function justPlaced(last: Change | undefined, frameIndex: number): PointId | null {
  return last?.kind === "point" && last.frameIndex === frameIndex && last.after !== null ? last.point : null;
}
