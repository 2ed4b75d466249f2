import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import { ORDER_WORDS } from "@/lib/domains/plans/components/family-note";
import type { HomeworkDrill, TodayView } from "../view";
import { FieldCautions } from "@/lib/domains/plans/components/field-cautions";
import { SetUpPicture } from "@/lib/domains/plans/components/set-up-picture";
import { setUpChecklist } from "@/lib/prescribe/scene";
import { weekdayWords } from "@/lib/domains/roster/loads/view";
import { TellAll, YouNeed } from "@/lib/domains/plans/components/drill-words";
import { helpWith } from "../rules";
import { DrillDone } from "./drill-done";
import { SwingsToday } from "./swings-today";

/** Today's drills: what to do, how many, Done. */
export function HomeworkList({ view, say }: { view: TodayView; say: Say }) {
  if (!view.note || view.phase === null) return null;
  const { plan } = view.note;
  const isPaused = view.stops.length > 0;
  const isWeekDone = view.doneDaysThisWeek >= plan.daysPerWeek && view.drills.every(({ doneTimes }) => doneTimes === 0);
  return (
    <section className="do" aria-labelledby="do">
      <h2 id="do">{view.showsNumbers && view.minutes > 0 && !isPaused ? say("Today, {count} minutes", { count: view.minutes }) : say("Today")}</h2>
      {view.phase === "before" ? <p>{say("This begins on {day}. Today there is nothing to do.", { day: say.day(plan.startsOn) })}</p> : null}
      {view.phase === "over" ? <p>{say("You are through with these drills. Your coach looks with you and makes the next plan.")}</p> : null}
      {isPaused && view.drills.length === 0 ? <p>{say("Rest is the homework today.")}</p> : null}
      {isPaused && view.drills.length > 0 ? <p>{say("These need no bat and no swing. Do them only if nothing hurts.")}</p> : null}
      {isPaused ? null : <SwingsToday view={view} say={say} />}
      {!isPaused && view.drills.length > 1 ? <p>{say(ORDER_WORDS[plan.practiceOrder])}</p> : null}
      {!isPaused && isWeekDone ? <p>{say("You have done all your days this week. Rest today.")}</p> : null}
      {view.drills.length > 0 ? (
        <ol className="jobs">
          {view.drills.map((drill) => (
            <Job key={drill.planDrillId} drill={drill} cautions={plan.cautions} say={say} isAsked={!isWeekDone && !drill.isEnoughThisWeek && drill.otherDays === null} />
          ))}
        </ol>
      ) : null}
      <WeekSoFar view={view} say={say} />
      {view.cautions.length > 0 ? (
        <p className="safety small">
          <b>{isPaused ? say("Before you begin.") : say("Before you swing.")}</b> <TellAll say={say} texts={view.cautions} />
        </p>
      ) : null}
      <FieldCautions cautions={view.fieldCautions} say={say} />
    </section>
  );
}

/** Before the first time: looked at together, once. What is ticked is kept nowhere; after the first count the list is gone. */
function FirstTime({ name, checklist, say }: { name: string; checklist: readonly string[]; say: Say }) {
  return (
    <details className="whole">
      <summary className="small">
        <b>{say("Before the first time:")}</b> {say("look at these with a grown-up")}
      </summary>
      <fieldset className="field">
        <legend className="hush" lang={say.langOf(name)}>{say.around(name)("Before the first time: {name}", { name: say.told(name) })}</legend>
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

/** What this week holds so far; nothing is compared, and a week that has not begun says nothing. */
function WeekSoFar({ view: { week, showsNumbers }, say }: { view: TodayView; say: Say }) {
  if (week.days === 0) return null;
  const days = daysInWords(week.days, say);
  return <p className="small">{showsNumbers && week.swings > 0 ? say("This week you did your drills on {days}, {count, plural, one {# swing} other {# swings}}.", { days, count: week.swings }) : say("This week you did your drills on {days}.", { days })}</p>;
}

/** A number of days of a week as a word: below eleven the page holds no numbers. */
function daysInWords(days: number, say: Say): string {
  return say("{count, plural, =0 {no day} =1 {one day} =2 {two days} =3 {three days} =4 {four days} =5 {five days} =6 {six days} =7 {seven days} other {# days}}", { count: days });
}

/** For whoever stands by: what helps, and what stays with the coach. */
function Helping({ drill, say }: { drill: HomeworkDrill; say: Say }) {
  const { help, leave } = helpWith(drill);
  return (
    <details className="whole">
      <summary className="small">{say("How to help")}</summary>
      <ul className="flow small">
        {help.map((words) => (
          <li key={words}>{say(words)}</li>
        ))}
      </ul>
      <p className="small">{say(leave)}</p>
    </details>
  );
}

function Job({ drill, cautions, isAsked, say }: { drill: HomeworkDrill; cautions: readonly string[]; isAsked: boolean; say: Say }) {
  const checklist = drill.scene && drill.isFirstTime ? setUpChecklist(drill.scene, cautions, say) : [];
  return (
    <li>
      <div>
        <h3>
          <Told say={say} text={drill.name} />
        </h3>
        {drill.cue ? <p className="small said"><Told say={say} text={drill.cue} isQuoted /></p> : null}
      </div>
      <div className="donebox">
        <span className="count num">{drill.times}</span>
        <span className="note">{drill.isSwing ? say("swings") : say("times")}</span>
      </div>
      <ol className="whole small quiet flow">
        {drill.steps.map((step) => (
          <li key={step}>
            <Told say={say} text={step} />
          </li>
        ))}
      </ol>
      {checklist.length > 1 ? <FirstTime name={drill.name} checklist={checklist} say={say} /> : null}
      <details className="whole">
        <summary className="small">{say("Set it up safely")}</summary>
        <div className="flow">
          {drill.scene ? <SetUpPicture scene={drill.scene} say={say} /> : null}
          {drill.equipment.length > 0 ? <YouNeed items={drill.equipment} say={say} /> : null}
          {drill.safety.map((words) => (
            <p key={words} className="small">
              <Told say={say} text={words} />
            </p>
          ))}
          <p className="small" lang={say.langOf(drill.worked)}>
            {say.around(drill.worked)("It worked when: {worked}", { worked: say.told(drill.worked) })}
          </p>
        </div>
      </details>
      <Helping drill={drill} say={say} />
      {drill.doneRight ? (
        <details className="whole">
          <summary className="small">{say("See yourself do it right")}</summary>
          <div className="plate">
            <div className="frame">
              <video controls playsInline preload="none" poster={drill.doneRight.posterUrl} src={drill.doneRight.filmUrl} aria-label={say("You, doing it right: {name}", { name: say.told(drill.name) })} />
            </div>
          </div>
        </details>
      ) : null}
      {drill.otherDays ? <p className="whole small">{say("This one is for {days}.", { days: weekdayWords(drill.otherDays, say) })}</p> : null}
      {drill.isEnoughThisWeek ? <p className="whole small">{say("This one is done for the week. Leave it today.")}</p> : null}
      <DrillDone planDrillId={drill.planDrillId} name={say.told(drill.name)} doneTimes={drill.doneTimes} isAsked={isAsked} />
    </li>
  );
}
