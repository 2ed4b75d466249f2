"use client";

import { useCallback, useDeferredValue, useMemo, useState } from "react";
import { CameraLine } from "@/lib/domains/clips/components/camera-line";
import { ClipFactsForm } from "@/lib/domains/clips/components/clip-facts-form";
import { EraseClip } from "@/lib/domains/clips/components/erase-clip";
import { KeptSwingViewer } from "@/lib/domains/clips/components/kept-swing-viewer";
import { SlowMotionQuestion } from "@/lib/domains/clips/components/slow-motion-question";
import { AnswerHere } from "@/lib/domains/clips/components/sent/answer-here";
import { SuggestingNote } from "@/lib/domains/clips/components/points/suggesting-note";
import { usePlateTaps } from "@/lib/domains/clips/components/use-plate-taps";
import type { SentForCoach } from "@/lib/domains/clips/sent/view";
import type { Suggesting } from "@/lib/domains/clips/suggested/view";
import type { EventView, PointView } from "@/lib/domains/clips/view";
import { openClipReader, withLiveClip } from "../rules";
import type { ComparableReadings, SwingReadings } from "../view";
import { guessesOf } from "./guesses-of";
import { Readings } from "./readings";
import { SeveralSwings } from "./several-swings";
import { windowRuns } from "./window-runs";

/** The clip as it stands after the last change that was ended. */
interface Settled {
  readonly points: readonly PointView[];
  readonly events: readonly EventView[];
}

interface SwingBenchProps {
  readonly measured: SwingReadings;
  /** How the swings like this one read. */
  readonly comparable: ComparableReadings;
  readonly clipId: string;
  /** Whether points are suggested on this clip. */
  readonly suggesting: Suggesting;
  readonly caption: string;
  /** Frame shown first; contact when it is not said. */
  readonly startFrame?: number;
  /** What the family asked with this swing; null when a coach filmed it. */
  readonly sent: SentForCoach | null;
}

/** One clip of a swing with its readings beside it, taken anew while a point moves. */
export function SwingBench({ measured, comparable, clipId, suggesting, caption, startFrame, sent }: SwingBenchProps) {
  const { swing, book, sections, wanted } = measured;
  const [settled, setSettled] = useState<Settled | null>(null);
  const [moving, setMoving] = useState<PointView | null>(null);
  const own = swing.clips.find(({ clip }) => clip.id === clipId);
  const now = useMemo(() => (settled ? withLiveClip(swing, clipId, settled) : swing), [swing, clipId, settled]);
  const reader = useMemo(() => openClipReader(now, book, clipId), [now, book, clipId]);
  const guesses = useMemo(() => guessesOf(now, clipId), [now, clipId]);
  const taps = usePlateTaps();
  const dragged = useDeferredValue(moving);
  const settledReadings = reader?.readings ?? [];
  const readings = useMemo(() => {
    if (!reader || !dragged) return reader?.readings ?? [];
    return reader.moved(dragged.point, dragged.frameIndex, { x: dragged.x, y: dragged.y, source: "placed" }).readings;
  }, [reader, dragged]);
  const onPointsChanged = useCallback((points: readonly PointView[], events: readonly EventView[], now: PointView | null) => {
    setMoving(now);
    if (!now) setSettled({ points, events });
  }, []);
  const events = settled?.events ?? own?.clip.events;
  const runs = useMemo(() => (own && events ? windowRuns(book.checkpoints, own.clip, events) : []), [book, own, events]);
  const shown = now.clips.find(({ clip }) => clip.id === clipId)?.clip;
  if (!own || !shown) return null;
  return (
    <KeptSwingViewer
      key={clipId}
      clip={own.clip}
      caption={caption}
      startFrame={startFrame}
      wanted={wanted.find((it) => it.clipId === clipId)?.checkpoints ?? []}
      runs={runs}
      guesses={guesses}
      taps={taps}
      suggesting={<SuggestingNote clipId={clipId} suggesting={suggesting} />}
      onPointsChanged={onPointsChanged}
      withFrame={sent ? (frameIndex) => <AnswerHere sent={sent} clipId={clipId} frameIndex={frameIndex} /> : undefined}
      readings={(onGo) => (
        <>
          <Readings checkpoints={book.checkpoints} sections={sections} readings={readings} settled={settledReadings} events={events ?? own.clip.events} onGo={onGo} />
          <SlowMotionQuestion clip={shown} />
          <SeveralSwings comparable={comparable} checkpoints={book.checkpoints} readings={readings} view={own.clip.view} />
          <CameraLine clip={shown} camera={own.camera} taps={taps} />
          <section>
            <ClipFactsForm clip={own.clip} camera={own.camera} />
            <EraseClip clipId={own.clip.id} />
          </section>
        </>
      )}
    />
  );
}
