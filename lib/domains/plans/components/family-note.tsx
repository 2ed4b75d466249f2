import { Cue } from "@/lib/ui/cue";
import { Letter } from "@/lib/ui/papers";
import { longDay, type FamilyDrill, type FamilyNote, type FamilyPlan } from "../view";
import { weekdayWords } from "@/lib/domains/roster/loads/view";
import { NoteStill } from "./note-still";
import { SetUpPicture } from "./set-up-picture";

interface FamilyNoteLetterProps {
  note: FamilyNote;
  /** Named for who hears the page, as "Note of Wednesday 25 November". */
  label?: string;
}

/** A note as the family reads it: the coach's preview and the portal show this one. */
export function FamilyNoteLetter({ note, label = `Note of ${longDay(note.day)}` }: FamilyNoteLetterProps) {
  const { plan } = note;
  return (
    <Letter head={`${note.academyName}, ${longDay(note.day)}`} label={label}>
      {note.keptWell ? (
        <p className="lead">
          <b>{note.keptWell}</b>
        </p>
      ) : null}
      {note.oneThing || note.why ? (
        <p>
          {note.oneThing} {note.why}
        </p>
      ) : null}
      {note.still ? <NoteStill still={note.still} alt={`${note.givenName}'s swing, with what the coach drew on it`} /> : null}
      {note.cue ? (
        <p>
          <Cue text={note.cue} isLead />
        </p>
      ) : null}
      {note.forFamily ? <p>{note.forFamily}</p> : null}
      <p>
        {planWords(plan)} We film again on {longDay(note.nextCheckOn)}.
      </p>
      {plan.drills.length > 1 ? <p>{ORDER_WORDS[plan.practiceOrder]}</p> : null}
      {plan.drills.map((drill) => (
        <DrillPart key={drill.id} drill={drill} />
      ))}
      {plan.cautions.length > 0 ? (
        <p className="safety small">
          <b>Before you begin.</b> {plan.cautions.join(" ")}
        </p>
      ) : null}
      <p>{note.from}</p>
    </Letter>
  );
}

/** "Two drills, four days a week, 12 minutes." */
function planWords({ drills, daysPerWeek, side }: FamilyPlan): string {
  if (drills.length === 0) return "No drills for now.";
  const minutes = drills.reduce((sum, { minutesPerDay }) => sum + minutesPerDay, 0);
  return `${NUMBERS[drills.length] ?? drills.length} ${drills.length === 1 ? "drill" : "drills"} from the ${side} side, ${NUMBERS[daysPerWeek]?.toLowerCase()} ${daysPerWeek === 1 ? "day" : "days"} a week, about ${minutes} minutes a day.`;
}

/** How practice is laid out, in words for the family. */
export const ORDER_WORDS = { blocked: "Finish one drill before you begin the next.", mixed: "Change the drill after every few turns." } as const;

const NUMBERS = ["No", "One", "Two", "Three", "Four", "Five"];

function DrillPart({ drill }: { drill: FamilyDrill }) {
  const count = drill.swingsPerDay > 0 && drill.swingsPerDay === drill.timesPerDay ? `${drill.swingsPerDay} swings` : `${drill.timesPerDay} times`;
  const most = drill.daysPerWeekMost;
  return (
    <section aria-label={drill.name} className="flow">
      <h3>{drill.name}</h3>
      <p className="note">
        {count} a day, {drill.minutesPerDay} minutes. {most === null ? null : `At most ${NUMBERS[most]?.toLowerCase() ?? most} ${most === 1 ? "day" : "days"} a week. `}
        {drill.weekdays.length > 0 ? `On ${weekdayWords(drill.weekdays)}. ` : null}
        {drill.equipment.length > 0 ? `You need: ${drill.equipment.join(", ")}.` : null}
      </p>
      <ol className="small" style={{ listStyle: "decimal inside" }}>
        {drill.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <p className="small">
        <b>It worked when:</b> {drill.worked}
      </p>
      {drill.scene ? <SetUpPicture scene={drill.scene} /> : null}
      <p className="small quiet">{drill.safety.join(" ")}</p>
    </section>
  );
}
