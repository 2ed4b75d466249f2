import type { Metadata } from "next";
import { WalkthroughList } from "@/lib/domains/walkthroughs/components/walkthrough-list";
import { WalkthroughSearch } from "@/lib/domains/walkthroughs/components/walkthrough-search";
import { listWalkthroughs, searchWalkthroughs } from "@/lib/domains/walkthroughs/queries";
import { getPlayer } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Walkthroughs" };

interface PageProps {
  params: Promise<{ playerId: string }>;
  searchParams: Promise<{ find?: string | string[] }>;
}

export default async function WalkthroughsPage({ params, searchParams }: PageProps) {
  const [{ playerId }, { find }] = await Promise.all([params, searchParams]);
  const text = typeof find === "string" ? find : "";
  const [player, rows, found] = await Promise.all([getPlayer({ playerId }), listWalkthroughs({ playerId }), text ? searchWalkthroughs({ playerId, text }) : null]);
  const base = `/players/${playerId}/walkthroughs`;
  return (
    <Leaf>
      <Opening title="Walkthroughs" sub={`What was told over ${player.name}’s films.`} actions={<ButtonLink href={`/players/${playerId}`}>{player.name}</ButtonLink>} />
      {rows.length > 0 ? <WalkthroughSearch text={text} found={found} base={base} /> : null}
      {rows.length > 0 ? (
        <WalkthroughList rows={rows} base={base} isForCoach />
      ) : (
        <Empty title="Nothing has been told yet" level="h2">Open a swing, lay another beside it if you like, and press “Talk over it”. Two minutes are plenty.</Empty>
      )}
    </Leaf>
  );
}
