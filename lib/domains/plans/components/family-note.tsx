import { english, type Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import { Cue } from "@/lib/ui/cue";
import { Letter } from "@/lib/ui/papers";
import type { FamilyDrill, FamilyNote, FamilyPlan } from "../view";
import { weekdayWords } from "@/lib/domains/roster/loads/view";
import { TellAll, youNeed } from "./drill-words";
import { NoteStill } from "./note-still";
import { SetUpPicture } from "./set-up-picture";

interface FamilyNoteLetterProps {
  note: FamilyNote;
  /** Named for who hears the page, as "Note of Wednesday 25 November". */
  label?: string;
  say?: Say;
}

/** A note as the family reads it: the coach's preview and the portal show this one. */
export function FamilyNoteLetter({ note, say = english, label = say("Note of {day}", { day: say.day(note.day) }) }: FamilyNoteLetterProps) {
  const { plan } = note;
  return (
    <Letter head={`${note.academyName}, ${say.day(note.day)}`} label={label}>
      {note.keptWell ? (
        <p className="lead" lang={say.asWritten}>
          <b>{note.keptWell}</b>
        </p>
      ) : null}
      {note.oneThing || note.why ? (
        <p>
          <Told say={say} text={note.oneThing} /> <span lang={say.asWritten}>{note.why}</span>
        </p>
      ) : null}
      {note.still ? <NoteStill still={note.still} say={say} alt={say("{name}'s swing, with what the coach drew on it", { name: note.givenName })} /> : null}
      {note.cue ? (
        <p lang={say.asWritten}>
          <Cue text={note.cue} isLead />
        </p>
      ) : null}
      {note.forFamily ? <p lang={say.asWritten}>{note.forFamily}</p> : null}
      <p>
        {planWords(plan, say)} {say("We film again on {day}.", { day: say.day(note.nextCheckOn) })}
      </p>
      {plan.drills.length > 1 ? <p>{say(ORDER_WORDS[plan.practiceOrder])}</p> : null}
      {plan.drills.map((drill) => (
        <DrillPart key={drill.id} drill={drill} say={say} />
      ))}
      {plan.cautions.length > 0 ? (
        <p className="safety small">
          <b>{say("Before you begin.")}</b> <TellAll say={say} texts={plan.cautions} />
        </p>
      ) : null}
      <p>{note.from}</p>
    </Letter>
  );
}

/** "Two drills, four days a week, 12 minutes." */
function planWords({ drills, daysPerWeek, side }: FamilyPlan, say: Say): string {
  if (drills.length === 0) return say("No drills for now.");
  const minutes = drills.reduce((sum, { minutesPerDay }) => sum + minutesPerDay, 0);
  const gaps = { drills: drills.length, days: daysInWeek(daysPerWeek, say), minutes };
  return side === "right"
    ? say("{drills, plural, =1 {One drill} =2 {Two drills} =3 {Three drills} =4 {Four drills} =5 {Five drills} other {# drills}} from the right side, {days} a week, about {minutes} minutes a day.", gaps)
    : say("{drills, plural, =1 {One drill} =2 {Two drills} =3 {Three drills} =4 {Four drills} =5 {Five drills} other {# drills}} from the left side, {days} a week, about {minutes} minutes a day.", gaps);
}

/** How practice is laid out, in words for the family. */
export const ORDER_WORDS = { blocked: "Finish one drill before you begin the next.", mixed: "Change the drill after every few turns." } as const;

const daysInWeek = (days: number, say: Say) =>
  say("{count, plural, =0 {no day} =1 {one day} =2 {two days} =3 {three days} =4 {four days} =5 {five days} =6 {six days} =7 {seven days} other {# days}}", { count: days });

function DrillPart({ drill, say }: { drill: FamilyDrill; say: Say }) {
  const gaps = { count: drill.timesPerDay, minutes: drill.minutesPerDay };
  const dose =
    drill.swingsPerDay > 0 && drill.swingsPerDay === drill.timesPerDay
      ? say("{count} swings a day, {minutes} minutes.", gaps)
      : say("{count} times a day, {minutes} minutes.", gaps);
  const most = drill.daysPerWeekMost;
  return (
    <section aria-label={say.told(drill.name)} className="flow">
      <h3>
        <Told say={say} text={drill.name} />
      </h3>
      <p className="note">
        {dose} {most === null ? null : `${say("At most {days} a week.", { days: daysInWeek(most, say) })} `}
        {drill.weekdays.length > 0 ? `${say("On {days}.", { days: weekdayWords(drill.weekdays, say) })} ` : null}
        {drill.equipment.length > 0 ? <span lang={say.langOf(...drill.equipment)}>{youNeed(drill.equipment, say)}</span> : null}
      </p>
      <ol className="small" style={{ listStyle: "decimal inside" }}>
        {drill.steps.map((step) => (
          <li key={step}>
            <Told say={say} text={step} />
          </li>
        ))}
      </ol>
      <p className="small">
        <b>{say("It worked when:")}</b> <Told say={say} text={drill.worked} />
      </p>
      {drill.scene ? <SetUpPicture scene={drill.scene} say={say} /> : null}
      <p className="small quiet">
        <TellAll say={say} texts={drill.safety} />
      </p>
    </section>
  );
}
