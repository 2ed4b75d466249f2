import { SetUpPicture } from "@/lib/domains/plans/components/set-up-picture";
import { longDay, type FamilyDrill, type FamilyNote } from "@/lib/domains/plans/view";

/** The homework on paper: cue, drills with steps and counts, boxes to tick, room to write. No picture: it may hang on a wall. */
export function HomeworkSheet({ note, givenName, stopped }: { note: FamilyNote; givenName: string; stopped: boolean }) {
  const { plan } = note;
  const drills = plan.drills.filter((drill) => !stopped || !drill.stopsWhenPaused);
  return (
    <article>
      <header className="top">
        <div>
          <p className="note">
            {note.academyName}, homework until {longDay(plan.endsOn)}
          </p>
          <h1>{note.oneThing}</h1>
        </div>
        <p>
          Name <span className="write">{givenName}</span>
        </p>
      </header>
      <p>
        <b>Keep:</b> {note.keptWell} <b>Say it before each set:</b> <span className="said">“{note.cue}”</span>
      </p>
      {stopped ? (
        <p>
          <b>Swings are paused.</b> Only what needs no swing stands here.
        </p>
      ) : null}
      {drills.map((drill, index) => (
        <DrillOnPaper key={drill.id} drill={drill} number={index + 1} days={drill.weekdays.length || (drill.daysPerWeekMost ?? plan.daysPerWeek)} />
      ))}
      <footer className="foot">
        <p>
          <b>Before you swing.</b> {plan.cautions.join(" ")}
        </p>
        <p>
          <b>It hurts?</b> Stop. Tell an adult. Tell us. Do something else today.
        </p>
      </footer>
    </article>
  );
}

const WEEKS = [1, 2];

function DrillOnPaper({ drill, number, days }: { drill: FamilyDrill; number: number; days: number }) {
  const boxes = Array.from({ length: days }, (_, index) => index + 1);
  return (
    <section className={drill.scene ? "drill" : "drill no-pic"}>
      {drill.scene ? (
        <div>
          <SetUpPicture scene={drill.scene} />
        </div>
      ) : null}
      <div>
        <h2>
          {number}. {drill.name}
        </h2>
        <ol>
          {drill.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <p>
          <b>
            {drill.timesPerDay} {drill.swingsPerDay > 0 ? "swings" : "times"} a day.
          </b>{" "}
          It works when: {drill.worked}
        </p>
        <table className="boxes">
          <caption className="hush">Boxes to tick for {drill.name}</caption>
          <thead>
            <tr>
              <td />
              {boxes.map((day) => (
                <th key={day} scope="col">
                  day {day}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {WEEKS.map((week) => (
              <tr key={week}>
                <th scope="row">week {week}</th>
                {boxes.map((day) => (
                  <td key={day} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
