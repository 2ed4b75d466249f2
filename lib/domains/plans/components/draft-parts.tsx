import Link from "next/link";
import type { DraftView, PlanPage } from "../draft/view";
import { CueForm } from "./cue-form";
import { DrillSet, LeftOutDrills, ProposedDrills } from "./drill-set";
import { FieldCautions } from "./field-cautions";
import { FamilyNoteLetter } from "./family-note";
import { NoteForm } from "./note-form";
import { PlanDays } from "./plan-days";
import { PrivateForm } from "./private-form";
import { SendForm } from "./send-form";
import { StillForm } from "./still-form";
import { SuggestForm } from "./suggest-form";

/** The draft from the first drill to the last word, in the order in which it is made. */
export function DraftParts({ page, draft }: { page: PlanPage; draft: DraftView }) {
  return (
    <div className="flow-wide">
      <section className="flow" aria-labelledby="drills">
        <h2 id="drills">Drills</h2>
        <p className="note">{sumWords(draft)}</p>
        {draft.swings.refusals.map((words) => (
          <p key={words} className="trouble small">
            {words}
          </p>
        ))}
        {draft.swings.growth ? <p className="note">{draft.swings.growth}</p> : null}
        {draft.drills.length > 0 ? <DrillSet draft={draft} /> : null}
        <FieldCautions cautions={draft.fieldCautions} />
        {page.elsewhere.isKnown ? <SuggestForm draft={draft} /> : null}
        <details>
          <summary className="btn plain">Minutes, days, next check</summary>
          <PlanDays draft={draft} />
        </details>
      </section>
      <section className="flow" aria-labelledby="short-list">
        <h2 className="as-h3" id="short-list">
          The short list
        </h2>
        {draft.keeps ? <p className="note">{draft.keeps}</p> : null}
        {draft.proposed.length > 0 ? <ProposedDrills draft={draft} most={draft.drills.length > 1 ? 2 : 4} /> : <p className="quiet">Nothing more fits what is at hand.</p>}
        {draft.leftOut.length > 0 ? (
          <details>
            <summary className="btn plain">Left out, and why: {draft.leftOut.length}</summary>
            <LeftOutDrills leftOut={draft.leftOut} />
          </details>
        ) : null}
      </section>
      <section className="flow" aria-labelledby="cue">
        <h2 className="as-h3" id="cue">
          Cue
        </h2>
        <CueForm draft={draft} />
      </section>
      <section className="flow-wide" aria-labelledby="write">
        <h2 className="as-h3" id="write">
          Write
        </h2>
        <NoteForm draft={draft} focusWhy={page.focusWhy} />
        <PrivateForm draft={draft} />
      </section>
      <section className="flow" aria-labelledby="still">
        <h2 className="as-h3" id="still">
          Still
        </h2>
        {draft.stills.length > 0 ? (
          <StillForm draft={draft} />
        ) : (
          <p className="quiet">
            Nothing is drawn on a clip of this side yet. Draw on a frame in <Link href={`/players/${page.playerId}?side=${page.side}`}>one of the swings</Link>, and it stands here.
          </p>
        )}
      </section>
    </div>
  );
}

function sumWords({ minutes, minutesPerDay, swings }: DraftView): string {
  const time = `${minutes} of ${minutesPerDay} minutes a day`;
  if (swings.mostPerDay === 0) return `${time}. Swings are paused: none until both sides have cleared it.`;
  return `${time}, ${swings.perDay} of ${swings.mostPerDay} swings a day, ${swings.perWeek} of ${swings.mostPerWeek} a week.`;
}

/** The letter exactly as the family will get it, and the one press that sends it. */
export function DraftPreview({ page, draft }: { page: PlanPage; draft: DraftView }) {
  return (
    <aside className="preview flow" aria-labelledby="preview">
      <h2 id="preview">As the family will see it</h2>
      <FamilyNoteLetter note={draft.letter} label="The note as the family will see it" />
      <SendForm planId={draft.planId} seen={draft.letterSeen} givenName={page.givenName} receivers={draft.receivers} notYet={draft.notYet} />
    </aside>
  );
}
