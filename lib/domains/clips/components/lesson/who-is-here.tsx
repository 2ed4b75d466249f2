"use client";

import { useState } from "react";
import type { Id } from "@/lib/core/ids";
import { CheckRow } from "@/lib/ui/check-row";
import { TextInput } from "@/lib/ui/text-input";
import type { LessonPlayer } from "../../lesson/schema";
import { lessonWords as words } from "./lesson-words";

const MOST_WITHOUT_SEARCH = 12;

interface WhoIsHereProps {
  readonly players: readonly LessonPlayer[];
  readonly hereIds: readonly Id[];
  readonly onHere: (ids: readonly Id[]) => void;
}

/** The players of the lesson, ticked once; the order of ticking is the order of the keys. */
export function WhoIsHere({ players, hereIds, onHere }: WhoIsHereProps) {
  const [isOpen, setIsOpen] = useState<boolean | null>(null);
  const [search, setSearch] = useState("");
  const found = players.filter(({ name }) => name.toLocaleLowerCase().includes(search.trim().toLocaleLowerCase()));
  const names = hereIds.flatMap((id) => players.find((it) => it.id === id)?.name ?? []);
  return (
    <>
      {names.length > 0 ? <p>{names.join(", ")}.</p> : null}
      <details className="fold" open={isOpen ?? hereIds.length === 0} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
        <summary>
          {words.change}: {words.hereNow(hereIds.length)}
        </summary>
        <div className="form">
          <p className="hint">{words.hereHint}</p>
          {players.length > MOST_WITHOUT_SEARCH ? <TextInput name="find" label={words.find} type="search" value={search} onChange={(event) => setSearch(event.target.value)} /> : null}
          <fieldset className="ticks">
            <legend className="hush">{words.here}</legend>
            {found.map(({ id, name, mayBeFilmed }) => (
              <CheckRow
                key={id} name={`here-${id}`} label={mayBeFilmed ? name : `${name}, ${words.notFilmed}`} disabled={!mayBeFilmed} checked={mayBeFilmed && hereIds.includes(id)}
                onChange={(event) => {
                  // The list stays open while somebody ticks.
                  setIsOpen(true);
                  onHere(event.target.checked ? [...hereIds, id] : hereIds.filter((it) => it !== id));
                }}
              />
            ))}
          </fieldset>
        </div>
      </details>
    </>
  );
}
