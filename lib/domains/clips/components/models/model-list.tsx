import Link from "next/link";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { Cut } from "@/lib/ui/cut";
import { restoreModel, withdrawModel } from "../../models/actions";
import { BASIS_WORDS } from "../../models/rules";
import type { ModelRow } from "../../models/view";
import { dayWords, hitterWords, stateWords, modelTakenWords, viewsWords } from "./words";

/** Models with their tags and rights, as the head coach keeps them. */
export function ModelList({ models }: { models: readonly ModelRow[] }) {
  return (
    <ul className="models">
      {models.map((model) => (
        <li key={model.id}>
          <Cut src={model.posterUrl} alt="" missing="No film is shown" />
          <div className="told">
            <h3>{model.state === "withdrawn" ? model.label : <Link href={`/library/models/${model.id}`}>{model.label}</Link>}</h3>
            <p>{hitterWords(model)}.</p>
            <p className="small quiet">
              {modelTakenWords(model)}. {viewsWords(model.views)}.
            </p>
            <p>{model.state === "shown" ? stateWords(model) : <b>{stateWords(model)}</b>}</p>
            <p className="small quiet">
              {BASIS_WORDS[model.rightBasis]}; the right is with {model.rightHolder}. Recorded by {model.recordedBy} on {dayWords(model.recordedOn)}.
              {model.rightNote ? ` ${model.rightNote}` : null}
            </p>
            <div className="bar-line">
              <Acts model={model} />
            </div>
          </div>
        </li>
      ))}
    </ul>
  );
}

function Acts({ model }: { model: ModelRow }) {
  const fields = { modelId: model.id };
  if (model.state === "withdrawn") {
    return model.canUndo ? (
      <ActButton action={restoreModel} fields={fields} label={`Undo the withdrawal of ${model.label}`}>
        Undo the withdrawal
      </ActButton>
    ) : (
      <Link className="btn plain" href={`/swings/${model.swingId}`}>
        Open the swing
      </Link>
    );
  }
  return (
    <>
      <Link className="btn" href={`/library/models/${model.id}`}>
        Tags and right<span className="hush"> of {model.label}</span>
      </Link>
      <ActButton action={withdrawModel} fields={fields} kind="plain" label={`Withdraw ${model.label}`}>
        Withdraw
      </ActButton>
      <Link className="btn plain" href={`/swings/${model.swingId}`}>
        Open the swing<span className="hush"> of {model.label}</span>
      </Link>
    </>
  );
}
