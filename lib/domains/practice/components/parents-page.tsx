import { longDay } from "@/lib/domains/plans/view";
import { ButtonLink } from "@/lib/ui/button";
import { Cue } from "@/lib/ui/cue";
import type { ParentsView } from "../view";
import { MarkedStill } from "./marked-still";
import { PrintButton } from "./print-button";

const SIDE_WORDS = { right: "right", left: "left" } as const;

/** One page, for the kitchen door too: what is worked on, how to help, what to leave to the coach, what was done. */
export function ParentsSummary({ view }: { view: ParentsView }) {
  const { givenName } = view;
  const [newest] = view.plans;
  return (
    <article className="onepage flow-wide">
      <div className="flow">
        <p className="note">
          {longDay(view.today)}. For the family of {view.name}.
        </p>
        <h1>Where {givenName} is, on one page</h1>
        {newest ? <p className="lead measure">{newest.note.keptWell}</p> : <p className="lead measure">The coach has not sent a note yet. It comes after a lesson.</p>}
      </div>
      <div className="cols">
        <div>
          {view.plans.map(({ note, count }) => (
            <section key={note.id} className="flow">
              <h2>{view.plans.length > 1 ? `The one thing, batting ${SIDE_WORDS[note.side]}` : "The one thing"}</h2>
              <p className="as-h3 head">{note.oneThing}</p>
              <p className="lead">
                <Cue text={note.cue} />
              </p>
              {note.still ? <MarkedStill still={note.still} alt={`The picture ${note.from} drew on`} /> : null}
              <p>{note.why}</p>
              {note.forFamily ? <p>{note.forFamily}</p> : null}
              <p>
                <b>
                  Done on {count.doneDays} of {count.plannedDays} days
                </b>{" "}
                until {longDay(count.endsOn)}. {note.from} looks again on {longDay(note.nextCheckOn)}.
              </p>
            </section>
          ))}
          <section>
            <h2>This week</h2>
            <p>
              {view.week.days === 1 ? "One day" : `${view.week.days} days`} with homework, {view.week.swings} swings counted. Easy swings count as half.
            </p>
          </section>
        </div>
        <div>
          <section>
            <h2>How to help at home</h2>
            <ul className="flow">
              {newest ? (
                <li>
                  {newest.note.plan.daysPerWeek} days a week, {newest.note.plan.minutesPerDay} minutes. Short beats long.
                </li>
              ) : null}
              <li>Ask {givenName} to say the cue. If it comes by itself, it is working.</li>
              <li>Stand where you can be seen, outside the circle: one bat and two big steps.</li>
              <li>Count what was done, not what was hit.</li>
            </ul>
          </section>
          <section>
            <h2>Please leave to us</h2>
            <ul className="flow">
              <li>How it looks. What is new looks strange before it looks easy.</li>
              <li>New tips from films. Bring them to the next lesson; we look together.</li>
            </ul>
          </section>
          <section>
            <h2>If something hurts</h2>
            <p>
              {givenName} stops and tells you, and one of you presses <b>It hurts</b>. Swings are paused at once. We never guess what an ache is: medical questions go to a licensed clinician.
            </p>
          </section>
        </div>
      </div>
      <div className="bar-line no-print">
        <PrintButton>Print this page</PrintButton>
        {newest ? <ButtonLink href={`/family/${view.playerId}/sheet`}>Homework sheet</ButtonLink> : null}
      </div>
    </article>
  );
}
