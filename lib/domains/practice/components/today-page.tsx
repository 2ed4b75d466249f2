import Link from "next/link";
import { clipAddress } from "@/lib/domains/clips/schema";
import type { FormAction } from "@/lib/domains/identity/components/act-button";
import { longDay, type FamilyNote } from "@/lib/domains/plans/view";
import { Cue } from "@/lib/ui/cue";
import { Empty } from "@/lib/ui/empty";
import { State } from "@/lib/ui/state";
import type { TodayView } from "../view";
import { HomeworkList } from "./homework-list";
import { MarkedStill } from "./marked-still";
import { StopPart } from "./stop-part";

/** What was kept well, the one thing, today's drills. Where swings stop, that stands first. */
export function TodayPage({ view, clear }: { view: TodayView; clear: FormAction }) {
  const { note } = view;
  return (
    <>
      <h1 className="hush">Today, {longDay(view.today)}</h1>
      <StopPart view={view} onHold={view.onHold} clear={clear} />
      {note ? (
        <>
          <PlanChoices view={view} />
          <div className="today">
            <KeptWell note={note} />
            <OneThing note={note} view={view} />
            <HomeworkList view={view} />
          </div>
        </>
      ) : (
        <Empty title="There is no homework yet" level="h2">
          Your coach writes a note after a lesson. Then it stands here: one thing, and what to do at home.
        </Empty>
      )}
    </>
  );
}

const SIDE_WORDS = { right: "Right side", left: "Left side" } as const;

/** A switch hitter has a plan for each side; a second focus has one of its own. */
function PlanChoices({ view }: { view: TodayView }) {
  if (view.choices.length < 2) return null;
  const isBySide = new Set(view.choices.map(({ side }) => side)).size === view.choices.length;
  return (
    <nav aria-label="Which plan" className="bar-line opens">
      <div className="pick">
        {view.choices.map((choice) => (
          <Link key={choice.planId} href={`/family/${view.playerId}/today?plan=${choice.planId}`} aria-current={choice.isShown ? "true" : undefined}>
            {isBySide ? SIDE_WORDS[choice.side] : choice.oneThing}
          </Link>
        ))}
      </div>
    </nav>
  );
}

function KeptWell({ note }: { note: FamilyNote }) {
  const picture = note.still?.url ? clipAddress.poster(note.still.clipId) : null;
  return (
    <section className={picture ? "kept-well" : "kept-well no-picture"} aria-label="Kept well">
      {picture ? (
        <div className="plate">
          <div className="frame">
            <img src={picture} alt="Your swing" />
          </div>
        </div>
      ) : null}
      <div>
        <p className="label">
          <State is="kept">Keep this</State>
        </p>
        <p className="head as-h3">{note.keptWell}</p>
      </div>
    </section>
  );
}

function OneThing({ note, view }: { note: FamilyNote; view: TodayView }) {
  return (
    <section className="one flow" aria-labelledby="one">
      <p className="label">{view.showsNumbers ? `One thing, until ${longDay(note.nextCheckOn)}` : "One thing"}</p>
      <h2 id="one" className="shout">
        {note.oneThing}
      </h2>
      {note.still ? <MarkedStill still={note.still} alt={`The picture your coach drew on: ${note.oneThing}`} /> : null}
      <p className="as-h2">
        <Cue text={note.cue} />
      </p>
      <p className="small">
        <Link href={`/family/${view.playerId}/notes/${note.id}`}>The whole note from {note.from}</Link>
      </p>
    </section>
  );
}
