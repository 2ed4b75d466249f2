import { notFound } from "next/navigation";
import { currentSay, titled } from "@/lib/access/current-say";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { textsOf } from "@/lib/domains/plans/view";
import { Told } from "@/lib/ui/words/told";
import { FamilyNoteLetter } from "@/lib/domains/plans/components/family-note";
import { getNoteForFamily } from "@/lib/domains/plans/queries";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { WalkthroughList } from "@/lib/domains/walkthroughs/components/walkthrough-list";
import { listSentWalkthroughs } from "@/lib/domains/walkthroughs/queries";
import { getStops } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily } from "@/lib/domains/roster/actions";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";

export const generateMetadata = titled("Note");

export default async function NotePage({ params }: { params: Promise<{ playerId: string; noteId: string }> }) {
  const { playerId, noteId } = await params;
  const note = await getNoteForFamily({ noteId });
  // The note of a sibling stands among the sibling's pages.
  if (note.playerId !== playerId) notFound();
  const [stops, walkthroughs] = await Promise.all([getStops({ playerId }), listSentWalkthroughs({ playerId, noteId })]);
  const say = await currentSay(await getTranslations({ texts: textsOf(note) }));
  return (
    <Leaf kind="portal">
      <h1 className="hush">
        <Told say={say} text={note.oneThing} />
      </h1>
      <StopPart view={stops} clear={clearPauseAsFamily} say={say} />
      <FamilyNoteLetter note={note} say={say} />
      {walkthroughs.length > 0 ? (
        <section className="opens">
          <h2>{say("Told over the film")}</h2>
          <WalkthroughList rows={walkthroughs} base={`/family/${playerId}/walkthroughs`} say={say} />
        </section>
      ) : null}
      <div className="bar-line closes no-print">
        <ButtonLink href={`/family/${playerId}/notes`}>{say("All notes")}</ButtonLink>
      </div>
    </Leaf>
  );
}
