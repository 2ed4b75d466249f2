import { notFound } from "next/navigation";
import { currentSay, titled } from "@/lib/access/current-say";
import { Replay } from "@/lib/domains/walkthroughs/components/replay/replay";
import { TakeAway } from "@/lib/domains/walkthroughs/components/take-away";
import { getSentWalkthrough } from "@/lib/domains/walkthroughs/queries";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const generateMetadata = titled("Walkthrough");

export default async function FamilyWalkthroughPage({ params }: { params: Promise<{ playerId: string; walkthroughId: string }> }) {
  const { playerId, walkthroughId } = await params;
  const view = await getSentWalkthrough({ walkthroughId });
  // A sibling's stands among the sibling's pages.
  if (view.playerId !== playerId) notFound();
  const stops = await getStops({ playerId });
  const say = await currentSay();
  return (
    <Leaf kind="swing">
      <h1 className="as-lead" lang={say.asWritten}>{view.title}</h1>
      <p className="quiet">{view.sentOn ? say("From {who}, {day}.", { who: view.from, day: say.day(view.sentOn) }) : say("From {who}.", { who: view.from })}</p>
      <StopPart view={stops} clear={clearPauseAsFamily} say={say} />
      {view.summary ? <p className="opens" lang={say.asWritten}>{view.summary}</p> : null}
      {view.isPermitted ? null : <p className="note">{say("No consent to film is in force, so neither pictures nor voice are played. The words are still here.")}</p>}
      <Replay view={view} />
      {view.isPermitted ? <TakeAway id={view.id} film={view.film} /> : null}
      <div className="bar-line closes no-print">
        {view.noteId ? <ButtonLink href={`/family/${playerId}/notes/${view.noteId}`}>{say("The note it goes with")}</ButtonLink> : null}
        <ButtonLink href={`/family/${playerId}/notes`}>{say("All notes")}</ButtonLink>
      </div>
    </Leaf>
  );
}
