"use client";

import { useCallback, useDeferredValue, useMemo, useState } from "react";
import { ClipFactsForm } from "@/lib/domains/clips/components/clip-facts-form";
import { KeptSwingViewer } from "@/lib/domains/clips/components/kept-swing-viewer";
import type { EventView, PointView } from "@/lib/domains/clips/view";
import { readSwing, withLiveClip } from "../rules";
import type { SwingReadings } from "../view";
import { Readings } from "./readings";

interface Live {
  readonly points: readonly PointView[];
  readonly events: readonly EventView[];
}

/** One clip of a swing with its readings beside it, taken anew while a point moves. */
export function SwingBench({ measured, clipId, caption }: { readonly measured: SwingReadings; readonly clipId: string; readonly caption: string }) {
  const { swing, book, wanted } = measured;
  const [live, setLive] = useState<Live | null>(null);
  const [settled, setSettled] = useState<Live | null>(null);
  const shown = useDeferredValue(live);
  const own = swing.clips.find(({ clip }) => clip.id === clipId);
  const readOf = useCallback(
    (given: Live | null) => {
      return readSwing(given ? withLiveClip(swing, clipId, given) : swing, book).find((it) => it.clipId === clipId)?.readings ?? [];
    },
    [swing, book, clipId],
  );
  const settledReadings = useMemo(() => readOf(settled), [readOf, settled]);
  const readings = useMemo(() => (shown === settled ? settledReadings : readOf(shown)), [readOf, shown, settled, settledReadings]);
  const onPointsChanged = useCallback((points: readonly PointView[], events: readonly EventView[], isMoving: boolean) => {
    const now = { points, events };
    setLive(now);
    if (!isMoving) setSettled(now);
  }, []);
  if (!own) return null;
  return (
    <KeptSwingViewer
      key={clipId}
      clip={own.clip}
      caption={caption}
      wanted={wanted.find((it) => it.clipId === clipId)?.checkpoints ?? []}
      onPointsChanged={onPointsChanged}
      readings={(onGo) => (
        <>
          <Readings checkpoints={book.checkpoints} readings={readings} settled={settledReadings} events={shown?.events ?? own.clip.events} onGo={onGo} />
          <section>
            <ClipFactsForm clip={own.clip} camera={own.camera} />
          </section>
        </>
      )}
    />
  );
}
