import { ORDER_WORDS } from "@/lib/domains/plans/components/family-note";
import { longDay } from "@/lib/domains/plans/view";
import type { HomeworkDrill, TodayView } from "../view";
import { FieldCautions } from "@/lib/domains/plans/components/field-cautions";
import { SetUpPicture } from "@/lib/domains/plans/components/set-up-picture";
import { helpWith } from "../rules";
import { DrillDone } from "./drill-done";
import { SwingsToday } from "./swings-today";

/** Today's drills: what to do, how many, Done. */
export function HomeworkList({ view }: { view: TodayView }) {
  if (!view.note || view.phase === null) return null;
  const { plan } = view.note;
  const isPaused = view.stops.length > 0;
  const isWeekDone = view.doneDaysThisWeek >= plan.daysPerWeek && view.drills.every(({ doneTimes }) => doneTimes === 0);
  return (
    <section className="do" aria-labelledby="do">
      <h2 id="do">{view.showsNumbers && view.minutes > 0 && !isPaused ? `Today, ${view.minutes} minutes` : "Today"}</h2>
      {view.phase === "before" ? <p>This begins on {longDay(plan.startsOn)}. Today there is nothing to do.</p> : null}
      {view.phase === "over" ? <p>You are through with these drills. Your coach looks with you and makes the next plan.</p> : null}
      {isPaused && view.drills.length === 0 ? <p>Rest is the homework today.</p> : null}
      {isPaused && view.drills.length > 0 ? <p>These need no bat and no swing. Do them only if nothing hurts.</p> : null}
      {isPaused ? null : <SwingsToday view={view} />}
      {!isPaused && view.drills.length > 1 ? <p>{ORDER_WORDS[plan.practiceOrder]}</p> : null}
      {!isPaused && isWeekDone ? <p>You have done all your days this week. Rest today.</p> : null}
      {view.drills.length > 0 ? (
        <ol className="jobs">
          {view.drills.map((drill) => (
            <Job key={drill.planDrillId} drill={drill} isAsked={!isWeekDone && !drill.isEnoughThisWeek && drill.otherDays === null} />
          ))}
        </ol>
      ) : null}
      <WeekSoFar view={view} />
      {view.cautions.length > 0 ? (
        <p className="safety small">
          <b>{isPaused ? "Before you begin." : "Before you swing."}</b> {view.cautions.join(" ")}
        </p>
      ) : null}
      <FieldCautions cautions={view.fieldCautions} />
    </section>
  );
}

/** Before the first time: looked at together, once. What is ticked is kept nowhere; after the first count the list is gone. */
function FirstTime({ name, checklist }: { name: string; checklist: readonly string[] }) {
  return (
    <details className="whole">
      <summary className="small">
        <b>Before the first time:</b> look at these with a grown-up
      </summary>
      <fieldset className="field">
        <legend className="hush">Before the first time: {name}</legend>
        {checklist.map((words) => (
          <label key={words} className="tick small">
            <input type="checkbox" />
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
    </details>
  );
}

const DAYS = ["no day", "one day", "two days", "three days", "four days", "five days", "six days", "seven days"];

/** What this week holds so far; nothing is compared, and a week that has not begun says nothing. */
function WeekSoFar({ view: { week, showsNumbers } }: { view: TodayView }) {
  if (week.days === 0) return null;
  const swings = showsNumbers && week.swings > 0 ? `, ${week.swings} ${week.swings === 1 ? "swing" : "swings"}` : "";
  return (
    <p className="small">
      This week you did your drills on {DAYS[week.days]}
      {swings}.
    </p>
  );
}

/** For whoever stands by: what helps, and what stays with the coach. */
function Helping({ drill }: { drill: HomeworkDrill }) {
  const { help, leave } = helpWith(drill);
  return (
    <details className="whole">
      <summary className="small">How to help</summary>
      <ul className="flow small">
        {help.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <p className="small">{leave}</p>
    </details>
  );
}

function Job({ drill, isAsked }: { drill: HomeworkDrill; isAsked: boolean }) {
  return (
    <li>
      <div>
        <h3>{drill.name}</h3>
        {drill.cue ? <p className="small said">“{drill.cue}”</p> : null}
      </div>
      <div className="donebox">
        <span className="count num">{drill.times}</span>
        <span className="note">{drill.isSwing ? "swings" : "times"}</span>
      </div>
      <ol className="whole small quiet flow">
        {drill.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {drill.checklist.length > 1 ? <FirstTime name={drill.name} checklist={drill.checklist} /> : null}
      <details className="whole">
        <summary className="small">Set it up safely</summary>
        <div className="flow">
          {drill.scene ? <SetUpPicture scene={drill.scene} /> : null}
          {drill.equipment.length > 0 ? <p className="small">You need: {drill.equipment.join(", ")}.</p> : null}
          {drill.safety.map((words) => (
            <p key={words} className="small">
              {words}
            </p>
          ))}
          <p className="small">It worked when: {drill.worked}</p>
        </div>
      </details>
      <Helping drill={drill} />
      {drill.doneRight ? (
        <details className="whole">
          <summary className="small">See yourself do it right</summary>
          <div className="plate">
            <div className="frame">
              <video controls playsInline preload="none" poster={drill.doneRight.posterUrl} src={drill.doneRight.filmUrl} aria-label={`You, doing it right: ${drill.name}`} />
            </div>
          </div>
        </details>
      ) : null}
      {drill.otherDays ? <p className="whole small">This one is for {drill.otherDays}.</p> : null}
      {drill.isEnoughThisWeek ? <p className="whole small">This one is done for the week. Leave it today.</p> : null}
      <DrillDone planDrillId={drill.planDrillId} name={drill.name} doneTimes={drill.doneTimes} isAsked={isAsked} />
    </li>
  );
}
