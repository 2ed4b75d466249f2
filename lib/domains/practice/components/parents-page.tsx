import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";
import { ButtonLink } from "@/lib/ui/button";
import { Cue } from "@/lib/ui/cue";
import type { ParentsView } from "../view";
import { MarkedStill } from "./marked-still";
import { PrintButton } from "./print-button";

/** One page, for the kitchen door too: what is worked on, how to help, what to leave to the coach, what was done. */
export function ParentsSummary({ view, say }: { view: ParentsView; say: Say }) {
  const { givenName } = view;
  const [newest] = view.plans;
  return (
    <article className="onepage flow-wide">
      <div className="flow">
        <p className="note">
          {say("{day}. For the family of {name}.", { day: say.day(view.today), name: view.name })}
        </p>
        <h1>{say("Where {name} is, on one page", { name: givenName })}</h1>
        {newest ? <p className="lead measure" lang={say.asWritten}>{newest.note.keptWell}</p> : <p className="lead measure">{say("The coach has not sent a note yet. It comes after a lesson.")}</p>}
      </div>
      <div className="cols">
        <div>
          {view.plans.map(({ note, count }) => (
            <section key={note.id} className="flow">
              <h2>{view.plans.length < 2 ? say("The one thing") : note.side === "right" ? say("The one thing, batting right") : say("The one thing, batting left")}</h2>
              <p className="as-h3 head">
                <Told say={say} text={note.oneThing} />
              </p>
              <p className="lead" lang={say.asWritten}>
                <Cue text={note.cue} />
              </p>
              {note.still ? <MarkedStill still={note.still} lang={say.asWritten} alt={say("The picture {who} drew on", { who: note.from })} /> : null}
              <p lang={say.asWritten}>{note.why}</p>
              {note.forFamily ? <p lang={say.asWritten}>{note.forFamily}</p> : null}
              <p>
                <b>{say("Done on {done} of {planned} days", { done: count.doneDays, planned: count.plannedDays })}</b> {say("until {day}.", { day: say.day(count.endsOn) })}{" "}
                {say("{who} looks again on {day}.", { who: note.from, day: say.day(note.nextCheckOn) })}
              </p>
            </section>
          ))}
          <section>
            <h2>{say("This week")}</h2>
            <p>
              {say("{days, plural, =1 {One day} other {# days}} with homework, {swings} swings counted. Easy swings count as half.", { days: view.week.days, swings: view.week.swings })}
            </p>
          </section>
        </div>
        <div>
          <section>
            <h2>{say("How to help at home")}</h2>
            <ul className="flow">
              {newest ? (
                <li>{say("{days} days a week, {minutes} minutes. Short beats long.", { days: newest.note.plan.daysPerWeek, minutes: newest.note.plan.minutesPerDay })}</li>
              ) : null}
              <li>{say("Ask {name} to say the cue. If it comes by itself, it is working.", { name: givenName })}</li>
              <li>{say("Stand where you can be seen, outside the circle: one bat and two big steps.")}</li>
              <li>{say("Count what was done, not what was hit.")}</li>
            </ul>
          </section>
          <section>
            <h2>{say("Please leave to us")}</h2>
            <ul className="flow">
              <li>{say("How it looks. What is new looks strange before it looks easy.")}</li>
              <li>{say("New tips from films. Bring them to the next lesson; we look together.")}</li>
            </ul>
          </section>
          <section>
            <h2>{say("If something hurts")}</h2>
            <p>
              {say("{name} stops and tells you, and one of you presses", { name: givenName })} <b>{say("It hurts")}</b>. {say("Swings are paused at once. We never guess what an ache is: medical questions go to a licensed clinician.")}
            </p>
          </section>
        </div>
      </div>
      <div className="bar-line no-print">
        <PrintButton>{say("Print this page")}</PrintButton>
        {newest ? <ButtonLink href={`/family/${view.playerId}/sheet`}>{say("Homework sheet")}</ButtonLink> : null}
      </div>
    </article>
  );
}
