import { notFound, redirect } from "next/navigation";
import { currentSay, titled } from "@/lib/access/current-say";
import { sentWords as words } from "@/lib/domains/clips/components/sent/sent-words";
import { getSent } from "@/lib/domains/clips/sent/queries";
import { MarkedStill } from "@/lib/domains/practice/components/marked-still";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const generateMetadata = titled("Your clip");

/** A clip that the family sent: the answer on its frame first, then the film itself. */
export default async function SentClipPage({ params }: { params: Promise<{ playerId: string; sentId: string }> }) {
  const { playerId, sentId } = await params;
  const view = await getSent({ sentId });
  // A sibling's stands among the sibling's pages.
  if (view.playerId !== playerId) notFound();
  if (view.walkthroughId) redirect(`/family/${playerId}/walkthroughs/${view.walkthroughId}`);
  const stops = await getStops({ playerId });
  const say = await currentSay();
  return (
    <Leaf kind="portal">
      <h1 className="as-lead">{say("Your clip of {day}", { day: say.day(view.day) })}</h1>
      <StopPart view={stops} clear={clearPauseAsFamily} say={say} />
      {view.answer ? (
        <section className="flow" aria-label={say("The answer")}>
          <p className="label">
            {view.answeredBy ? say("Answered by {who}", { who: view.answeredBy }) : say(words.states.answered)}
            {view.answeredOn ? `, ${say.day(view.answeredOn)}` : ""}
          </p>
          {view.still ? <MarkedStill still={view.still} lang={say.asWritten} alt={say.asWritten ? say("The picture that the answer is about") : `The picture that the answer is about: ${view.answer}`} /> : null}
          <p className="lead as-written" lang={say.asWritten}>{view.answer}</p>
        </section>
      ) : (
        <p>{say(words.states[view.state])}</p>
      )}
      <section className="opens flow" aria-label={say("What you sent")}>
        <h2>{say("What you sent")}</h2>
        {view.words ? <p className="said">“{view.words}”</p> : null}
        {view.filmUrl ? (
          <div className="plate">
            <div className="frame">
              <video controls playsInline preload="none" poster={view.posterUrl ?? undefined} src={view.filmUrl} aria-label={say("The clip that you sent")} />
            </div>
          </div>
        ) : (
          <p className="quiet">{say("The film is not shown now.")}</p>
        )}
      </section>
      <div className="bar-line closes no-print">
        <ButtonLink href={`/family/${playerId}/clips`}>{say("All clips")}</ButtonLink>
      </div>
    </Leaf>
  );
}
