"use client";

import { memo } from "react";
import type { EventView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import { readingWords } from "@/lib/measure/reading-words";
import type { CheckpointToRead } from "../view";
import { groupIds, groupOf, type GroupId } from "./groups";
import { OneReading } from "./one-reading";
import { measurementWords as words } from "./words";

interface ReadingsProps {
  readonly checkpoints: readonly CheckpointToRead[];
  /** The readings as they are now. */
  readonly readings: readonly Reading[];
  /** The readings by which the groups are made: while a point moves, a row keeps its place. */
  readonly settled: readonly Reading[];
  readonly events: readonly EventView[];
  readonly onGo: (frameIndex: number) => void;
}

/** What the checkpoints read on a clip: what speaks first, fine in a quiet line each, the rest with its reason. */
export const Readings = memo(function Readings({ checkpoints, readings, settled, events, onGo }: ReadingsProps) {
  const names = new Map(checkpoints.map((it) => [it.id, it.name]));
  const now = new Map(readings.map((it) => [it.checkpointId, it]));
  const groups = new Map<GroupId, Reading[]>();
  for (const it of settled) {
    const group = groupOf(it);
    groups.set(group, [...(groups.get(group) ?? []), now.get(it.checkpointId) ?? it]);
  }
  const nameOf = (reading: Reading) => names.get(reading.checkpointId) ?? reading.checkpointId;
  const unread = groups.get("not-read") ?? [];
  return (
    <section className="measured" aria-labelledby="readings-title">
      <h2 id="readings-title">{words.title}</h2>
      {unread.length === settled.length ? <p className="small quiet">{settled.length > 0 ? words.noneYet : words.noLibrary}</p> : null}
      {groupIds.map((group) => {
        const own = group === "not-read" ? [] : (groups.get(group) ?? []);
        return own.length === 0 ? null : (
          <div key={group} role="group" aria-label={words.groups[group]} className={`reading-group ${group}`}>
            <h3>
              {words.groups[group]} <span className="quiet">{own.length}</span>
            </h3>
            {own.map((it) => (
              <OneReading key={it.checkpointId} reading={it} name={nameOf(it)} events={events} onGo={onGo} />
            ))}
          </div>
        );
      })}
      {unread.length > 0 ? (
        <details className="fold">
          <summary>{words.notRead(unread.length)}</summary>
          <ul className="readings">
            {unread.map((it) => (
              <li key={it.checkpointId} className="off">
                <b>{nameOf(it)}</b>
                <br />
                {readingWords(it).why[0] ?? words.notReadHere}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
});
