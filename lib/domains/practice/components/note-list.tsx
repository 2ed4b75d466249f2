import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import type { SentNoteRow } from "@/lib/domains/plans/view";
import { Cue } from "@/lib/ui/cue";
import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";

/** Notes that were sent, newest first; each opens with its still and its words as they were. */
export function NoteList({ playerId, rows, say }: { playerId: string; rows: readonly SentNoteRow[]; say: Say }) {
  return rows.map((row) => (
    <Entry key={row.id} side={say.day(row.sentOn)} note={say("from {who}", { who: row.from })} isStrong>
      <div className="flow">
        <p lang={say.asWritten}>
          <State is="kept">{row.keptWell}</State>
        </p>
        <h2>
          <Told say={say} text={row.oneThing} />
        </h2>
        <p lang={say.asWritten}>
          <Cue text={row.cue} />
        </p>
        <ButtonLink href={`/family/${playerId}/notes/${row.id}`} aria-label={say.knows(row.oneThing) ? say("Open the note: {thing}, {day}", { thing: say.told(row.oneThing), day: say.day(row.sentOn) }) : say("Open the note of {day}", { day: say.day(row.sentOn) })}>
          {say("Open the note")}
        </ButtonLink>
      </div>
    </Entry>
  ));
}
