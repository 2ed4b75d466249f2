import { getDrillsForPlanning } from "@/lib/domains/library/queries";
import { HomeForm } from "@/lib/domains/roster/components/home-form";
import { getPlayerRecord } from "@/lib/domains/roster/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "At home" };

export default async function HomePage({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const [{ player, home }, library] = await Promise.all([getPlayerRecord({ playerId }), getDrillsForPlanning({})]);
  return (
    <Leaf>
      <Opening
        title={`At home: ${player.name}`}
        sub="Drills are chosen to fit this. What is not ticked is not there."
        actions={<ButtonLink href={`/roster/${playerId}`}>Back to the player</ButtonLink>}
      />
      <Entry side="What is there" isStrong label="What is there">
        <HomeForm playerId={playerId} home={home} gear={library.gear.items.map(({ id, name }) => ({ id, name }))} />
      </Entry>
    </Leaf>
  );
}
