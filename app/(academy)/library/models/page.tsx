import { ModelList } from "@/lib/domains/clips/components/models/model-list";
import { listModels } from "@/lib/domains/clips/models/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Model swings, library" };

export default async function ModelsPage({ searchParams }: { searchParams: Promise<{ kept?: string; withdrawn?: string }> }) {
  const named = await searchParams;
  const { kept, withdrawn } = await listModels({});
  const news = newsOf(kept.find(({ id }) => id === named.kept)?.label, withdrawn.find(({ id }) => id === named.withdrawn)?.label);
  const shown = kept.filter(({ state }) => state === "shown");
  const hidden = kept.filter(({ state }) => state !== "shown");
  return (
    <Leaf>
      <Opening title="Model swings" sub="Swings this academy may lay beside a player's own. Coaches see the label and the tags, never whose swing it is." actions={<ButtonLink kind="plain" href="/library">Library</ButtonLink>} />
      <div role="status">{news ? <p className="kept-line">{news}</p> : null}</div>
      {kept.length === 0 ? (
        <Empty title="No swing is kept as a model" action={<ButtonLink href="/players">To the players</ButtonLink>}>
          Open a swing with contact set and press “Keep as a model”. Saying whose right it is and until when takes about a minute.
        </Empty>
      ) : null}
      {hidden.length > 0 ? (
        <Entry side="Not shown" note="nothing of it is offered" isHeading isStrong>
          <ModelList models={hidden} />
        </Entry>
      ) : null}
      {shown.length > 0 ? (
        <Entry side="Shown" note="the right that ends first on top" isHeading>
          <ModelList models={shown} />
        </Entry>
      ) : null}
      {withdrawn.length > 0 ? (
        <Entry side="Withdrawn" note="the last ones" isHeading>
          <ModelList models={withdrawn} />
        </Entry>
      ) : null}
    </Leaf>
  );
}

function newsOf(kept: string | undefined, withdrawn: string | undefined): string | null {
  if (withdrawn) return `“${withdrawn}” is withdrawn. It is shown nowhere from now on. You can undo that below for an hour.`;
  return kept ? `“${kept}” is kept as a model. Coaches can choose it now.` : null;
}
