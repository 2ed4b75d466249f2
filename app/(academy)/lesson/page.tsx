import type { Metadata } from "next";
import Link from "next/link";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { LessonBoard } from "@/lib/domains/clips/components/lesson/lesson-board";
import { findOwnLastFacts, listLessonPlayers, listOwnUploads } from "@/lib/domains/clips/lesson/queries";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Group lesson" };

export default async function LessonPage() {
  const [players, uploads, last, actor] = await Promise.all([listLessonPlayers({}), listOwnUploads({}), findOwnLastFacts({}), currentActor()]);
  return (
    <Leaf>
      <Opening title="Group lesson" sub="Many clips, one key or tap each. They are sent while you go on." actions={<Link href="/cage-day">Back to the cage day</Link>} />
      {isPerson(actor) && players.length > 0 ? (
        <LessonBoard userId={actor.userId} players={players} last={last} today={actor.today} uploads={uploads} />
      ) : (
        <Empty title="Nobody to film yet">The head coach or an admin says whom you coach. Their names then stand here.</Empty>
      )}
    </Leaf>
  );
}
