import type { Metadata } from "next";
import { FamilyNoteLetter } from "@/lib/domains/plans/components/family-note";
import { getNoteForCoach } from "@/lib/domains/plans/queries";
import { longDay } from "@/lib/domains/plans/view";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Note" };

/** A note as the family has it, and beside it what only staff read. */
export default async function NotePage({ params }: { params: Promise<{ noteId: string }> }) {
  const { note, privateWords } = await getNoteForCoach({ noteId: (await params).noteId });
  const player = `/players/${note.playerId}?side=${note.side}`;
  return (
    <Leaf>
      <Opening
        title="Note"
        sub={`${note.isSent ? `Sent on ${longDay(note.day)}` : "Not sent yet"}, bats ${note.side}.`}
        actions={<ButtonLink href={player}>{note.givenName}</ButtonLink>}
      />
      <div className="plan opens">
        <FamilyNoteLetter note={note} label="As the family has it" />
        <aside className="flow" aria-label="For staff">
          <p className="pencilled">
            <b>For staff only.</b> {privateWords || "Nothing was written."}
          </p>
        </aside>
      </div>
    </Leaf>
  );
}
