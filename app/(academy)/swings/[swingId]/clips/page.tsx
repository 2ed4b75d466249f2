import type { Metadata } from "next";
import Link from "next/link";
import { MoveSwing } from "@/lib/domains/clips/components/owner/move-swing";
import { SortClips } from "@/lib/domains/clips/components/owner/sort-clips";
import { listLessonPlayers } from "@/lib/domains/clips/lesson/queries";
import { getSwingToSort } from "@/lib/domains/clips/owner/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Sort the clips" };

export default async function SortClipsPage({ params }: { params: Promise<{ swingId: string }> }) {
  const { swingId } = await params;
  const [sort, players] = await Promise.all([getSwingToSort({ swingId }), listLessonPlayers({})]);
  return (
    <Leaf>
      <Opening title="Sort the clips" sub="Whose swing it is, and which clips are one swing." actions={<Link href={`/swings/${swingId}`}>Back to the swing</Link>} />
      <Entry side="Whose swing" isHeading isStrong>
        {sort.isModel ? <p>This swing is kept as a model. Withdraw the model before it is moved.</p> : <MoveSwing swingId={swingId} playerId={sort.playerId} playerName={sort.playerName} players={players} />}
      </Entry>
      <SortClips key={sort.clips.map(({ id }) => id).join(" ")} sort={sort} />
    </Leaf>
  );
}
