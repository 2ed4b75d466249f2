"use client";

import { useDeferredValue, useState } from "react";
import { ClipFactsForm } from "@/lib/domains/clips/components/clip-facts-form";
import { KeptSwingViewer } from "@/lib/domains/clips/components/kept-swing-viewer";
import type { EventView, PointView } from "@/lib/domains/clips/view";
import { readSwing } from "../rules";
import type { SwingReadings } from "../view";
import { Readings } from "./readings";

/** One clip of a swing with its readings beside it, taken anew while a point moves. */
export function SwingBench({ measured, clipId, caption }: { readonly measured: SwingReadings; readonly clipId: string; readonly caption: string }) {
  const { swing, book, wanted } = measured;
  const [live, setLive] = useState<{ points: readonly PointView[]; events: readonly EventView[] } | null>(null);
  const settled = useDeferredValue(live);
  const own = swing.clips.find(({ clip }) => clip.id === clipId);
  if (!own) return null;
  const now = settled ? { ...swing, clips: swing.clips.map((it) => (it === own ? { ...it, clip: { ...it.clip, ...settled } } : it)) } : swing;
  const readings = readSwing(now, book).find((it) => it.clipId === clipId)?.readings ?? [];
  return (
    <KeptSwingViewer
      key={clipId}
      clip={own.clip}
      caption={caption}
      wanted={wanted.find((it) => it.clipId === clipId)?.checkpoints ?? []}
      onPointsChanged={(points, events) => setLive({ points, events })}
      readingsSlot={
        <>
          <Readings checkpoints={book.checkpoints} readings={readings} />
          <section>
            <ClipFactsForm clip={own.clip} camera={own.camera} />
          </section>
        </>
      }
    />
  );
}
