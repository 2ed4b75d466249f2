import { currentSay, titled } from "@/lib/access/current-say";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { NoteList } from "@/lib/domains/practice/components/note-list";
import { WalkthroughList } from "@/lib/domains/walkthroughs/components/walkthrough-list";
import { listSentWalkthroughs } from "@/lib/domains/walkthroughs/queries";
import { listSentNotes } from "@/lib/domains/plans/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Notes");

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ after?: string | string[] }>;
}

export default async function Notes({ params, searchParams }: Props) {
  const [{ playerId }, { after }] = await Promise.all([params, searchParams]);
  const [page, walkthroughs] = await Promise.all([listSentNotes({ playerId, after: typeof after === "string" ? after : undefined }), after ? [] : listSentWalkthroughs({ playerId })]);
  const say = await currentSay(await getTranslations({ texts: page.rows.map(({ oneThing }) => oneThing) }));
  return (
    <Leaf kind="portal">
      <Opening title={say("Notes")} />
      {page.rows.length > 0 ? (
        <NoteList playerId={playerId} rows={page.rows} say={say} />
      ) : (
        <Empty title={say("There is no note yet")} level="h2">
          {say("Your coach writes one after a lesson. It stays here for good.")}
        </Empty>
      )}
      {walkthroughs.length > 0 ? (
        <section className="opens">
          <h2>{say("Told over your film")}</h2>
          <WalkthroughList rows={walkthroughs} base={`/family/${playerId}/walkthroughs`} say={say} />
        </section>
      ) : null}
      {page.next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/family/${playerId}/notes?after=${page.next}`}>{say("Older notes")}</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
