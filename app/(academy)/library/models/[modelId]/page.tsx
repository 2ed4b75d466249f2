import { ModelForm } from "@/lib/domains/clips/components/models/model-form";
import { stateWords, viewsWords } from "@/lib/domains/clips/components/models/words";
import { getModel } from "@/lib/domains/clips/models/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Cut } from "@/lib/ui/cut";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "A model swing, library" };

export default async function ModelPage({ params }: { params: Promise<{ modelId: string }> }) {
  const model = await getModel({ modelId: (await params).modelId });
  return (
    <Leaf>
      <Opening title={model.label} sub={stateWords(model)} actions={<ButtonLink kind="plain" href="/library/models">Model swings</ButtonLink>} />
      <Entry side="The swing" note={`bats ${model.side}`} isHeading>
        <ul className="models">
          <li>
            <Cut src={model.posterUrl} alt="" missing="No film is shown" />
            <div className="told">
              <p>{viewsWords(model.views)}.</p>
              <ButtonLink href={`/swings/${model.swingId}`}>Open the swing</ButtonLink>
            </div>
          </li>
        </ul>
      </Entry>
      <Entry side="Tags and right" isHeading>
        {model.state === "withdrawn" ? <p>It was withdrawn. Keep the swing as a model anew to change anything.</p> : <ModelForm of={{ modelId: model.id }} tags={model} right={model} />}
      </Entry>
    </Leaf>
  );
}
