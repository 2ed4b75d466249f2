import { NoteList } from "@/lib/domains/practice/components/note-list";
import { listSentNotes } from "@/lib/domains/plans/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Notes" };

interface Props {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ after?: string | string[] }>;
}

export default async function Notes({ params, searchParams }: Props) {
  const [{ playerId }, { after }] = await Promise.all([params, searchParams]);
  const page = await listSentNotes({ playerId, after: typeof after === "string" ? after : undefined });
  return (
    <Leaf kind="portal">
      <Opening title="Notes" />
      {page.rows.length > 0 ? (
        <NoteList playerId={playerId} rows={page.rows} />
      ) : (
        <Empty title="There is no note yet" level="h2">
          Your coach writes one after a lesson. It stays here for good.
        </Empty>
      )}
      {page.next ? (
        <div className="bar-line closes">
          <ButtonLink href={`/family/${playerId}/notes?after=${page.next}`}>Older notes</ButtonLink>
        </div>
      ) : null}
    </Leaf>
  );
}
