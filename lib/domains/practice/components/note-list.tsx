import { longDay, type SentNoteRow } from "@/lib/domains/plans/view";
import { Cue } from "@/lib/ui/cue";
import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";

/** Notes that were sent, newest first; each opens with its still and its words as they were. */
export function NoteList({ playerId, rows }: { playerId: string; rows: readonly SentNoteRow[] }) {
  return rows.map((row) => (
    <Entry key={row.id} side={longDay(row.sentOn)} note={`from ${row.from}`} isStrong>
      <div className="flow">
        <p>
          <State is="kept">{row.keptWell}</State>
        </p>
        <h2>{row.oneThing}</h2>
        <p>
          <Cue text={row.cue} />
        </p>
        <ButtonLink href={`/family/${playerId}/notes/${row.id}`} aria-label={`Open the note: ${row.oneThing}, ${longDay(row.sentOn)}`}>
          Open the note
        </ButtonLink>
      </div>
    </Entry>
  ));
}
