"use client";

import { memo } from "react";
import type { EventView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import type { CheckpointToRead, ReadingSection } from "../view";
import { groupIds, groupOf, sectionsOf } from "./groups";
import { OneReading } from "./one-reading";
import { UnreadReadings } from "./unread-readings";
import { measurementWords as words } from "./words";

interface ReadingsProps {
  readonly checkpoints: readonly CheckpointToRead[];
  readonly sections: readonly ReadingSection[];
  /** The readings as they are now. */
  readonly readings: readonly Reading[];
  /** The readings by which the groups are made: while a point moves, a row keeps its place. */
  readonly settled: readonly Reading[];
  readonly events: readonly EventView[];
  readonly onGo: (frameIndex: number) => void;
}

/** What the checkpoints read on a clip, under the academy's own questions: what speaks first, then what is fine; the rest is folded, with what it waits for. */
export const Readings = memo(function Readings({ checkpoints, sections, readings, settled, events, onGo }: ReadingsProps) {
  const names = new Map(checkpoints.map((it) => [it.id, it.name]));
  const now = new Map(readings.map((it) => [it.checkpointId, it]));
  const nameOf = (reading: Reading) => names.get(reading.checkpointId) ?? reading.checkpointId;
  const unread = settled.filter((it) => groupOf(it) === "not-read");
  const counts = groupIds.flatMap((group) => {
    const count = group === "not-read" ? 0 : settled.filter((it) => groupOf(it) === group).length;
    return count > 0 ? [words.count[group](count)] : [];
  });
  return (
    <section className="measured" aria-labelledby="readings-title">
      <h2 id="readings-title">{words.title}</h2>
      {counts.length > 0 ? <p className="small quiet">{counts.join(", ")}.</p> : <p className="small quiet">{settled.length > 0 ? words.noneYet : words.noLibrary}</p>}
      {sectionsOf(sections, checkpoints, settled).map((section) => (
        <div key={section.id} role="group" aria-label={section.question ?? words.rest} className="reading-group">
          <h3>{section.question ?? words.rest}</h3>
          {section.readings.map((it) => (
            <OneReading key={it.checkpointId} reading={now.get(it.checkpointId) ?? it} name={nameOf(it)} events={events} onGo={onGo} />
          ))}
        </div>
      ))}
      <UnreadReadings readings={unread} nameOf={nameOf} />
    </section>
  );
});
