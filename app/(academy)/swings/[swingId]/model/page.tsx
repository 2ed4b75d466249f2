import { ModelForm } from "@/lib/domains/clips/components/models/model-form";
import { dayWords, viewsWords } from "@/lib/domains/clips/components/models/words";
import { getModelDraft } from "@/lib/domains/clips/models/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Cut } from "@/lib/ui/cut";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata = { title: "Keep as a model" };

export default async function KeepModelPage({ params }: { params: Promise<{ swingId: string }> }) {
  const { swingId } = await params;
  const { playerName, filmedOn, views, posterUrl, modelId, hindrance, tags } = await getModelDraft({ swingId });
  return (
    <Leaf>
      <Opening
        title="Keep as a model"
        sub="Every coach of the academy may then lay it beside a player's swing. They see the label and the tags, never whose swing it is."
        actions={<ButtonLink kind="plain" href={`/swings/${swingId}`}>Back to the swing</ButtonLink>}
      />
      <Entry side="The swing" note={`bats ${tags.side}`} isHeading>
        <ul className="models">
          <li>
            <Cut src={posterUrl} alt="" missing="No film is shown" />
            <div className="told">
              <p>
                {playerName}, {dayWords(filmedOn)}.
              </p>
              <p className="small quiet">{viewsWords(views)}.</p>
            </div>
          </li>
        </ul>
      </Entry>
      {hindrance ? (
        <Problem
          happened={hindrance} kept="Nothing was changed."
          action={modelId ? <ButtonLink href={`/library/models/${modelId}`}>Open the model</ButtonLink> : <ButtonLink href={`/swings/${swingId}`}>Back to the swing</ButtonLink>}
        />
      ) : (
        <Entry side="Tags and right" isHeading>
          <ModelForm of={{ swingId }} tags={tags} />
        </Entry>
      )}
    </Leaf>
  );
}
