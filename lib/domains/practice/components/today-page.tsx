import Link from "next/link";
import { clipAddress } from "@/lib/domains/clips/schema";
import type { Say } from "@/lib/core/words/say";
import type { FormAction } from "@/lib/domains/identity/components/act-button";
import type { FamilyNote } from "@/lib/domains/plans/view";
import { Cue } from "@/lib/ui/cue";
import { Empty } from "@/lib/ui/empty";
import { Told } from "@/lib/ui/words/told";
import { State } from "@/lib/ui/state";
import type { TodayView } from "../view";
import { HomeworkList } from "./homework-list";
import { MarkedStill } from "./marked-still";
import { StopPart } from "./stop-part";

/** What was kept well, the one thing, today's drills. Where swings stop, that stands first. */
export function TodayPage({ view, clear, say }: { view: TodayView; clear: FormAction; say: Say }) {
  const { note } = view;
  return (
    <>
      <h1 className="hush">{say("Today, {day}", { day: say.day(view.today) })}</h1>
      <StopPart view={view} onHold={view.onHold} clear={clear} say={say} />
      {note ? (
        <>
          <PlanChoices view={view} say={say} />
          <div className="today">
            <KeptWell note={note} say={say} />
            <OneThing note={note} view={view} say={say} />
            <HomeworkList view={view} say={say} />
          </div>
        </>
      ) : (
        <Empty title={say("There is no homework yet")} level="h2">
          {say("Your coach writes a note after a lesson. Then it stands here: one thing, and what to do at home.")}
        </Empty>
      )}
    </>
  );
}

const SIDE_WORDS = { right: "Right side", left: "Left side" } as const;

/** A switch hitter has a plan for each side; a second focus has one of its own. */
function PlanChoices({ view, say }: { view: TodayView; say: Say }) {
  if (view.choices.length < 2) return null;
  const isBySide = new Set(view.choices.map(({ side }) => side)).size === view.choices.length;
  return (
    <nav aria-label={say("Which plan")} className="bar-line opens">
      <div className="pick">
        {view.choices.map((choice) => (
          <Link key={choice.planId} href={`/family/${view.playerId}/today?plan=${choice.planId}`} aria-current={choice.isShown ? "true" : undefined}>
            {isBySide ? say(SIDE_WORDS[choice.side]) : <Told say={say} text={choice.oneThing} />}
          </Link>
        ))}
      </div>
    </nav>
  );
}

function KeptWell({ note, say }: { note: FamilyNote; say: Say }) {
  const picture = note.still?.url ? clipAddress.poster(note.still.clipId) : null;
  return (
    <section className={picture ? "kept-well" : "kept-well no-picture"} aria-label={say("Kept well")}>
      {picture ? (
        <div className="plate">
          <div className="frame">
            <img src={picture} alt={say("Your swing")} />
          </div>
        </div>
      ) : null}
      <div>
        <p className="label">
          <State is="kept">{say("Keep this")}</State>
        </p>
        <p className="head as-h3" lang={say.asWritten}>
          {note.keptWell}
        </p>
      </div>
    </section>
  );
}

function OneThing({ note, view, say }: { note: FamilyNote; view: TodayView; say: Say }) {
  return (
    <section className="one flow" aria-labelledby="one">
      <p className="label">{view.showsNumbers ? say("One thing, until {day}", { day: say.day(note.nextCheckOn) }) : say("One thing")}</p>
      <h2 id="one" className="shout">
        <Told say={say} text={note.oneThing} />
      </h2>
      {note.still ? <MarkedStill still={note.still} alt={say.asWritten ? say("The picture your coach drew on") : `The picture your coach drew on: ${note.oneThing}`} lang={say.asWritten} /> : null}
      <p className="as-h2" lang={say.asWritten}>
        <Cue text={note.cue} />
      </p>
      <p className="small">
        <Link href={`/family/${view.playerId}/notes/${note.id}`}>{say("The whole note from {who}", { who: note.from })}</Link>
      </p>
    </section>
  );
}
