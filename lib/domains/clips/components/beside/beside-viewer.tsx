"use client";
import { useCallback, useEffect, useMemo, useReducer, useRef, useState, type CSSProperties } from "react";
import { wholeLook, zoomAbout } from "../../rules";
import type { BesideGroup, ClipBeside } from "../../view";
import type { FrameSource } from "../frame-source-type";
import type { SourceStatus } from "../use-frame-source";
import { Chooser, ClipList, LayOverControls, LookControls } from "./beside-aside";
import { heardBeside } from "./beside-keys";
import { BesidePane } from "./beside-pane";
import { besideReducer, clockOf, movingTogether, startBeside, type BesideAction, type BesideState } from "./beside-state";
import { BesideSteps, EventJumps } from "./beside-steps";
import { BesideTape } from "./beside-tape";
import { stretchedWords } from "./beside-words";
import { anchorsOf, torsoScale } from "./laid-over";
import { LaidOverStage } from "./laid-over-stage";
import { lineUp } from "./lined-clip";
import { OpenClip } from "./open-clip";
import { useBesidePlaying } from "./use-beside-playing";
import { useShowing } from "./use-showing";

export interface BesideViewerProps {
  readonly clips: readonly ClipBeside[];
  readonly groups: readonly BesideGroup[];
  /** Where the clock begins, in real seconds from contact. */
  readonly startSeconds?: number;
}

const flippedOf = (clips: readonly ClipBeside[]) => clips.filter(({ startsFlipped }) => startsFlipped).map(({ clip }) => clip.id);

/** Up to four clips on one swing clock, beside each other or laid over one another. */
export function BesideViewer({ clips, groups, startSeconds = 0 }: BesideViewerProps) {
  const views = useMemo(() => clips.map(({ clip }) => clip), [clips]);
  const plain = useMemo(() => lineUp(views, false), [views]);
  const stretched = useMemo(() => lineUp(views, true), [views]);
  const [state, dispatch] = useReducer((now: BesideState, action: BesideAction) => besideReducer((action.kind === "stretch" ? action.isStretched : now.isStretched) ? stretched : plain)(now, action), { clips: plain, flipped: flippedOf(clips), seconds: startSeconds }, startBeside);
  const lined = state.isStretched ? stretched : plain;
  const ids = views.map(({ id }) => id).join(" ");
  const flipped = flippedOf(clips).join(" ");
  useEffect(() => dispatch({ kind: "clips", flipped: flipped.split(" ") }), [ids, flipped, state.isStretched]);

  const [statuses, setStatuses] = useState<Readonly<Record<string, SourceStatus>>>({});
  const onStatus = useCallback((clipId: string, status: SourceStatus | null) => {
    setStatuses((now) => Object.fromEntries([...Object.entries(now).filter(([id]) => id !== clipId), ...(status ? [[clipId, status] as const] : [])]));
  }, []);
  const sources = useMemo(() => Object.fromEntries(Object.entries(statuses).flatMap(([id, it]): [string, FrameSource][] => (it.kind === "ready" ? [[id, it.source]] : []))), [statuses]);
  const asked = useMemo(() => Object.fromEntries(Object.entries(state.places).map(([id, { frameIndex }]) => [id, frameIndex])), [state.places]);
  const together = useMemo(() => movingTogether(lined, state).map(({ id }) => id), [lined, state]);
  const showing = useMemo(() => ({ asked, together, sources, travel: state.travel }), [asked, together, sources, state.travel]);
  const shown = useShowing(showing);
  const isSlow = useBesidePlaying(lined, state, dispatch, shown);

  const benchRef = useRef<HTMLDivElement>(null);
  const tapped = state.tapping?.clipId ?? null;
  const wasTappedRef = useRef<string | null>(null);
  useEffect(() => {
    // A picture that asks for a place hears the keys; when it goes, the next one does.
    if (wasTappedRef.current !== tapped) benchRef.current?.querySelector<HTMLElement>(".pair .frame")?.focus({ preventScroll: true });
    wasTappedRef.current = tapped;
  }, [tapped]);
  const inHand = lined.find((it) => it.id === state.inHand) ?? lined[0];
  const place = inHand ? state.places[inHand.id] : undefined;
  const clock = clockOf(lined, state);
  const onClock = lined.filter((it) => !it.notLined);
  const torso = useMemo(() => torsoScale(views), [views]);
  const anchors = useMemo(() => anchorsOf(views, state.anchor, state.taps), [views, state.anchor, state.taps]);
  const hasSeveral = clips.length > 1;
  const isOver = state.isLaidOver && hasSeveral && !state.tapping;
  // Laid over, the first picture carries the others.
  const closer = isOver ? lined[0] : inHand;
  const closerLook = closer ? state.places[closer.id]?.look : undefined;
  const picture = { width: closer?.clip.widthPx ?? 1, height: closer?.clip.heightPx ?? 1 };
  const panes = state.tapping ? clips.filter(({ clip }) => clip.id === state.tapping?.clipId) : clips;
  const doubts = clips.filter(({ clip }) => sources[clip.id]?.isExact === false);
  const numbers = Object.fromEntries(views.map(({ id }, i) => [id, i + 1]));
  const hrefOf = (clipIds: readonly string[]) => {
    const [first, ...others] = clipIds;
    const swingId = views.find(({ id }) => id === first)?.swingId ?? "";
    return `/swings/${swingId}/beside?clip=${first}${others.length > 0 ? `&with=${others.join(",")}` : ""}`;
  };
  const ratio = Math.max(...views.map(({ widthPx, heightPx }) => widthPx / heightPx));

  return (
    <div
      ref={benchRef} className="bench beside" style={{ "--aspect": ratio, "--across": panes.length > 1 && !isOver ? 2 : 1 } as CSSProperties}
      onKeyDown={(event) => {
        const action = heardBeside(event, state, views.map(({ id }) => id));
        if (!action) return;
        event.preventDefault();
        dispatch(action);
      }}
    >
      {clips.map(({ clip, isShown }) => (isShown ? <OpenClip key={clip.id} clip={clip} onStatus={onStatus} /> : null))}
      <div className="at-hand">
        {hasSeveral ? (
          <div className="bar-line opens">
            <div className="pick" role="group" aria-label="How they stand">
              <button type="button" aria-pressed={!state.isLaidOver} onClick={() => dispatch({ kind: "lay-over", isLaidOver: false })}>Side by side</button>
              <button type="button" aria-pressed={state.isLaidOver} aria-keyshortcuts="O" onClick={() => dispatch({ kind: "lay-over", isLaidOver: true })}>Laid over</button>
            </div>
            {state.isStretched ? <p className="note">{stretchedWords}</p> : null}
          </div>
        ) : null}
        {isSlow ? <p className="note" role="status">This device plays slower than asked; the times shown stay true.</p> : null}
        {doubts.length > 0 ? <p className="note" role="status">This browser cannot promise the frame of {doubts.map(({ caption }) => `‘${caption}’`).join(" and ")}: it may be one frame from the one named.</p> : null}
        {clips.map(({ clip, caption }) => {
          const status = statuses[clip.id];
          return status?.kind === "ready" && status.doubt ? <p key={clip.id} className="note" role="status">‘{caption}’: {status.doubt}</p> : null;
        })}
        <div className={panes.length === 1 || isOver ? "pair single" : "pair"} data-count={isOver ? 1 : panes.length}>
          {isOver ? (
            <LaidOverStage clips={clips} lined={lined} sources={sources} state={state} dispatch={dispatch} shown={shown} torso={torso} anchors={anchors} />
          ) : (
            panes.map((it) => {
              const own = lined.find(({ id }) => id === it.clip.id);
              return own ? (
                <BesidePane
                  key={it.clip.id} beside={it} lined={own} number={numbers[it.clip.id] ?? 1} status={statuses[it.clip.id] ?? { kind: "loading", part: 0 }} state={state} dispatch={dispatch}
                  shown={shown[it.clip.id] ?? null} clock={together.includes(it.clip.id) ? clock : null}
                />
              ) : null;
            })
          )}
        </div>
        {clock !== null && onClock.length > 0 ? (
          <BesideTape clips={onClock} numbers={numbers} seconds={clock} isStretched={state.isStretched} onShow={(seconds) => dispatch({ kind: "show-at", seconds })} />
        ) : (
          <p className="note">No clip has its contact set yet, so there is no common clock. Each is stepped by itself.</p>
        )}
        <BesideSteps
          state={state} dispatch={dispatch} hasSeveral={hasSeveral} zoom={closerLook?.zoom ?? 1}
          onCloser={() => closer && closerLook && dispatch({ kind: "look", clipId: closer.id, look: zoomAbout(closerLook, 2, closerLook.centre, picture, picture) })}
          onWhole={() => closer && dispatch({ kind: "look", clipId: closer.id, look: wholeLook(picture) })}
        />
        {inHand ? <EventJumps lined={inHand} frameIndex={place?.frameIndex ?? 0} dispatch={dispatch} /> : null}
      </div>
      <aside className="aside" aria-label="Clips">
        {isOver || state.tapping ? <LayOverControls clips={clips} state={state} dispatch={dispatch} torso={torso} anchors={anchors} /> : null}
        <LookControls clips={clips} state={state} dispatch={dispatch} />
        <ClipList clips={clips} lined={lined} state={state} dispatch={dispatch} hrefOf={hrefOf} />
        <Chooser clips={clips} groups={groups} hrefOf={hrefOf} />
      </aside>
    </div>
  );
}
