import { AddPlayerForm } from "@/lib/domains/roster/components/player-form";
import { listLocations } from "@/lib/domains/roster/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Add a player" };

export default async function AddPlayerPage() {
  const locations = await listLocations({});
  return (
    <Leaf>
      <Opening title="Add a player" sub="Guardian, consent and coach come on the next page." />
      <Entry side="The player" isStrong label="The player">
        <AddPlayerForm locations={locations} />
      </Entry>
    </Leaf>
  );
}
