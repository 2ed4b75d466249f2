import type { Metadata } from "next";
import Link from "next/link";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { AddClips } from "@/lib/domains/clips/components/add-clips";
import { findLastFacts, listSwingsToJoin, listUploads } from "@/lib/domains/clips/queries";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata: Metadata = { title: "Add clips" };

interface AddClipsPageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ side?: string; swing?: string }>;
}

export default async function AddClipsPage({ params, searchParams }: AddClipsPageProps) {
  const [{ playerId }, { side, swing }] = await Promise.all([params, searchParams]);
  const uploads = await listUploads({ playerId });
  const [player, facts, last, swings] = await Promise.all([getPlayer({ playerId }), getPlayerFacts({ playerId }), findLastFacts({ playerId }), listSwingsToJoin({ playerId })]);
  const actor = await currentActor();
  const userId = isPerson(actor) ? actor.userId : "";
  return (
    <Leaf>
      <Opening title={`Add clips of ${player.givenName}`} actions={<Link href={`/players/${playerId}`}>Back to {player.givenName}</Link>} />
      {facts.permittedUses.includes("lesson") ? (
        <AddClips
          userId={userId} playerId={playerId} sides={player.sides.map((it) => it.side)} last={last} side={player.sides.find((it) => it.side === side)?.side ?? null} today={facts.today}
          swings={swings} joinSwingId={swing ?? null} uploads={uploads}
        />
      ) : (
        <Problem
          happened={`No consent to film ${player.givenName} for lessons is in force.`}
          kept="Nothing is filmed or shown until there is one. What was recorded before is kept."
          todo="The family or the office can give one."
        />
      )}
    </Leaf>
  );
}
