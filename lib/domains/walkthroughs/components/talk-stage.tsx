"use client";
import { useCallback, useLayoutEffect, useMemo, useState, type Dispatch, type ReactNode, type RefObject } from "react";
import { BesidePane, type PaneDrawing } from "@/lib/domains/clips/components/beside/beside-pane";
import { clockOf, type BesideAction, type BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import { BesideTape } from "@/lib/domains/clips/components/beside/beside-tape";
import { anchorsOf, torsoScale, type Anchors, type TorsoScale } from "@/lib/domains/clips/components/beside/laid-over";
import { LaidOverStage } from "@/lib/domains/clips/components/beside/laid-over-stage";
import type { LinedClip } from "@/lib/domains/clips/components/beside/lined-clip";
import { OpenClip } from "@/lib/domains/clips/components/beside/open-clip";
import { useShowing } from "@/lib/domains/clips/components/beside/use-showing";
import type { FrameSource, Travel } from "@/lib/domains/clips/components/frame-source-type";
import type { SourceStatus } from "@/lib/domains/clips/components/use-frame-source";
import type { ClipBeside, MarkView } from "@/lib/domains/clips/view";

export interface TalkStageProps {
  readonly clips: readonly ClipBeside[];
  readonly lined: readonly LinedClip[];
  readonly state: BesideState;
  readonly dispatch: Dispatch<BesideAction>;
  /** What is drawn now, by clip. */
  readonly marks: Readonly<Record<string, readonly MarkView[]>>;
  /** Somebody draws. */
  readonly drawing?: PaneDrawing | null;
  /** How clips lie over one another, where it does not follow from the page. */
  readonly over?: { readonly torso: TorsoScale; readonly anchors: Anchors } | null;
  /** Small pictures with which it begins, by clip, as data addresses. */
  readonly opening?: Readonly<Record<string, string>>;
  /** Clips that change in one go. */
  readonly together: readonly string[];
  /** Stands under the pictures and over the clock. */
  readonly children?: ReactNode;
  readonly travel: Travel;
  /** Is kept at whether every picture that can be shown is the one that is told of. */
  readonly areThereRef?: RefObject<boolean>;
}

const LOADING: SourceStatus = { kind: "loading", part: 0 };

/** The pictures of a talk with their clock: the same for who records it and who looks at it. */
export function TalkStage({ clips, lined, state, dispatch, marks, drawing = null, over, opening, together, children, travel, areThereRef }: TalkStageProps) {
  const [statuses, setStatuses] = useState<Readonly<Record<string, SourceStatus>>>({});
  const onStatus = useCallback((clipId: string, status: SourceStatus | null) => {
    setStatuses((now) => Object.fromEntries([...Object.entries(now).filter(([id]) => id !== clipId), ...(status ? [[clipId, status] as const] : [])]));
  }, []);
  const sources = useMemo(() => Object.fromEntries(Object.entries(statuses).flatMap(([id, it]): [string, FrameSource][] => (it.kind === "ready" ? [[id, it.source]] : []))), [statuses]);
  const asked = useMemo(() => Object.fromEntries(clips.flatMap(({ clip }) => (state.places[clip.id] ? [[clip.id, state.places[clip.id]?.frameIndex ?? 0]] : []))), [clips, state.places]);
  const showing = useMemo(() => ({ asked, together, sources, travel }), [asked, together, sources, travel]);
  const shown = useShowing(showing);
  const areThere = clips.every(({ clip: { id }, isShown }) => {
    const status = statuses[id] ?? LOADING;
    const frame = asked[id] ?? 0;
    return !isShown || status.kind === "failed" || (status.kind === "ready" && (shown[id] === frame || status.source.isLost(frame)));
  });
  useLayoutEffect(() => {
    if (areThereRef) areThereRef.current = areThere;
  });
  const marked = useMemo(() => clips.map((it) => ({ ...it, clip: { ...it.clip, marks: marks[it.clip.id] ?? [] } })), [clips, marks]);
  const views = useMemo(() => clips.map(({ clip }) => clip), [clips]);
  const isOver = state.isLaidOver && clips.length > 1 && !state.tapping && clips.every(({ isShown }) => isShown);
  const panes = state.tapping ? marked.filter(({ clip }) => clip.id === state.tapping?.clipId) : marked;
  const [first] = clips;
  const onClock = lined.filter((it) => !it.notLined);
  const clock = clockOf(lined, state);
  const numbers = Object.fromEntries(views.map(({ id }, i) => [id, i + 1]));
  return (
    <>
      {clips.map(({ clip, isShown }) => (isShown ? <OpenClip key={clip.id} clip={clip} onStatus={onStatus} /> : null))}
      <div className={panes.length === 1 || isOver ? "pair single" : "pair"} data-count={isOver ? 1 : panes.length}>
        {isOver ? (
          <LaidOverStage
            clips={marked} lined={lined} sources={sources} state={state} dispatch={dispatch} shown={shown}
            opening={first ? opening?.[first.clip.id] : undefined} torso={over?.torso ?? torsoScale(views)} anchors={over?.anchors ?? anchorsOf(views, state.anchor, state.taps)}
          />
        ) : (
          panes.map((it) => {
            const own = lined.find(({ id }) => id === it.clip.id);
            return own ? (
              <BesidePane
                key={it.clip.id} beside={it} lined={own} number={numbers[it.clip.id] ?? 1} status={statuses[it.clip.id] ?? LOADING} state={state} dispatch={dispatch}
                shown={shown[it.clip.id] ?? null} clock={together.includes(it.clip.id) ? clock : null} opening={opening?.[it.clip.id]} drawing={drawing}
              />
            ) : null;
          })
        )}
      </div>
      {children}
      {clock !== null && onClock.length > 0 ? <BesideTape clips={onClock} numbers={numbers} seconds={clock} isStretched={false} onShow={(seconds) => dispatch({ kind: "show-at", seconds })} /> : null}
    </>
  );
}
