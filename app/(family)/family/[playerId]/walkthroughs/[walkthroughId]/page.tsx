import { notFound } from "next/navigation";
import { Replay } from "@/lib/domains/walkthroughs/components/replay/replay";
import { TakeAway } from "@/lib/domains/walkthroughs/components/take-away";
import { getSentWalkthrough } from "@/lib/domains/walkthroughs/queries";
import { longDay } from "@/lib/domains/plans/view";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const metadata = { title: "Walkthrough" };

export default async function FamilyWalkthroughPage({ params }: { params: Promise<{ playerId: string; walkthroughId: string }> }) {
  const { playerId, walkthroughId } = await params;
  const view = await getSentWalkthrough({ walkthroughId });
  // A sibling's stands among the sibling's pages.
  if (view.playerId !== playerId) notFound();
  const stops = await getStops({ playerId });
  return (
    <Leaf kind="swing">
      <h1 className="as-lead">{view.title}</h1>
      <p className="quiet">From {view.from}{view.sentOn ? `, ${longDay(view.sentOn)}` : ""}.</p>
      <StopPart view={stops} clear={clearPauseAsFamily} />
      {view.summary ? <p className="opens">{view.summary}</p> : null}
      {view.isPermitted ? null : <p className="note">No consent to film is in force, so neither pictures nor voice are played. The words are still here.</p>}
      <Replay view={view} />
      {view.isPermitted ? <TakeAway id={view.id} film={view.film} /> : null}
      <div className="bar-line closes no-print">
        {view.noteId ? <ButtonLink href={`/family/${playerId}/notes/${view.noteId}`}>The note it goes with</ButtonLink> : null}
        <ButtonLink href={`/family/${playerId}/notes`}>All notes</ButtonLink>
      </div>
    </Leaf>
  );
}
