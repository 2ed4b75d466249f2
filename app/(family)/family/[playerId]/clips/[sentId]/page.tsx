import { notFound, redirect } from "next/navigation";
import { sentWords as words } from "@/lib/domains/clips/components/sent/sent-words";
import { getSent } from "@/lib/domains/clips/sent/queries";
import { longDay } from "@/lib/domains/plans/view";
import { MarkedStill } from "@/lib/domains/practice/components/marked-still";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const metadata = { title: "Your clip" };

/** A clip that the family sent: the answer on its frame first, then the film itself. */
export default async function SentClipPage({ params }: { params: Promise<{ playerId: string; sentId: string }> }) {
  const { playerId, sentId } = await params;
  const view = await getSent({ sentId });
  // A sibling's stands among the sibling's pages.
  if (view.playerId !== playerId) notFound();
  if (view.walkthroughId) redirect(`/family/${playerId}/walkthroughs/${view.walkthroughId}`);
  const stops = await getStops({ playerId });
  return (
    <Leaf kind="portal">
      <h1 className="as-lead">Your clip of {longDay(view.day)}</h1>
      <StopPart view={stops} clear={clearPauseAsFamily} />
      {view.answer ? (
        <section className="flow" aria-label="The answer">
          <p className="label">
            {view.answeredBy ? words.answeredBy(view.answeredBy) : words.states.answered}
            {view.answeredOn ? `, ${longDay(view.answeredOn)}` : ""}
          </p>
          {view.still ? <MarkedStill still={view.still} alt={`The picture that the answer is about: ${view.answer}`} /> : null}
          <p className="lead as-written">{view.answer}</p>
        </section>
      ) : (
        <p>{words.states[view.state]}</p>
      )}
      <section className="opens flow" aria-label="What you sent">
        <h2>What you sent</h2>
        {view.words ? <p className="said">“{view.words}”</p> : null}
        {view.filmUrl ? (
          <div className="plate">
            <div className="frame">
              <video controls playsInline preload="none" poster={view.posterUrl ?? undefined} src={view.filmUrl} aria-label="The clip that you sent" />
            </div>
          </div>
        ) : (
          <p className="quiet">The film is not shown now.</p>
        )}
      </section>
      <div className="bar-line closes no-print">
        <ButtonLink href={`/family/${playerId}/clips`}>All clips</ButtonLink>
      </div>
    </Leaf>
  );
}
