import { SetUpPicture } from "@/lib/domains/plans/components/set-up-picture";
import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import { TellAll } from "@/lib/domains/plans/components/drill-words";
import type { FamilyDrill, FamilyNote } from "@/lib/domains/plans/view";

/** The homework on paper: cue, drills with steps and counts, boxes to tick, room to write. No picture: it may hang on a wall. */
export function HomeworkSheet({ note, givenName, stopped, say }: { note: FamilyNote; givenName: string; stopped: boolean; say: Say }) {
  const { plan } = note;
  const drills = plan.drills.filter((drill) => !stopped || !drill.stopsWhenPaused);
  return (
    <article>
      <header className="top">
        <div>
          <p className="note">
            {say("{academy}, homework until {day}", { academy: note.academyName, day: say.day(plan.endsOn) })}
          </p>
          <h1>
            <Told say={say} text={note.oneThing} />
          </h1>
        </div>
        <p>
          {say("Name")} <span className="write">{givenName}</span>
        </p>
      </header>
      <p>
        <b>{say("Keep:")}</b> <span lang={say.asWritten}>{note.keptWell}</span> <b>{say("Say it before each set:")}</b> <span className="said" lang={say.asWritten}>“{note.cue}”</span>
      </p>
      {stopped ? (
        <p>
          <b>{say("Swings are paused.")}</b> {say("Only what needs no swing stands here.")}
        </p>
      ) : null}
      {drills.map((drill, index) => (
        <DrillOnPaper key={drill.id} drill={drill} say={say} number={index + 1} days={drill.weekdays.length || (drill.daysPerWeekMost ?? plan.daysPerWeek)} />
      ))}
      <footer className="foot">
        <p>
          <b>{say("Before you swing.")}</b> <TellAll say={say} texts={plan.cautions} />
        </p>
        <p>
          <b>{say("It hurts?")}</b> {say("Stop. Tell an adult. Tell us. Do something else today.")}
        </p>
      </footer>
    </article>
  );
}

const WEEKS = [1, 2];

function DrillOnPaper({ drill, number, days, say }: { drill: FamilyDrill; number: number; days: number; say: Say }) {
  const boxes = Array.from({ length: days }, (_, index) => index + 1);
  return (
    <section className={drill.scene ? "drill" : "drill no-pic"}>
      {drill.scene ? (
        <div>
          <SetUpPicture scene={drill.scene} say={say} />
        </div>
      ) : null}
      <div>
        <h2>
          {number}. <Told say={say} text={drill.name} />
        </h2>
        <ol>
          {drill.steps.map((step) => (
            <li key={step}>
              <Told say={say} text={step} />
            </li>
          ))}
        </ol>
        <p>
          <b>{drill.swingsPerDay > 0 ? say("{count} swings a day.", { count: drill.timesPerDay }) : say("{count} times a day.", { count: drill.timesPerDay })}</b>{" "}
          <span lang={say.langOf(drill.worked)}>{say.around(drill.worked)("It works when: {worked}", { worked: say.told(drill.worked) })}</span>
        </p>
        <table className="boxes">
          <caption className="hush">{say("Boxes to tick for {name}", { name: say.told(drill.name) })}</caption>
          <thead>
            <tr>
              <td />
              {boxes.map((day) => (
                <th key={day} scope="col">
                  {say("day {number}", { number: day })}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {WEEKS.map((week) => (
              <tr key={week}>
                <th scope="row">{say("week {number}", { number: week })}</th>
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
