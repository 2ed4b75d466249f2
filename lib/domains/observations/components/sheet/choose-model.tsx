import Link from "next/link";
import { hitterWords, modelTakenWords } from "@/lib/domains/clips/components/models/words";
import type { ModelOption } from "@/lib/domains/clips/models/view";
import { classNames } from "@/lib/ui/class-names";
import { Cut } from "@/lib/ui/cut";
import type { SheetView } from "../../sheet/view";
import { sheetAddress, type SheetState } from "./addresses";
import { sheetWords as words } from "./sheet-words";

interface ChooseModelProps {
  readonly sheet: Pick<SheetView, "swingId" | "clipId" | "models">;
  /** The other swings that lie on the sheet stay there. */
  readonly withIds: SheetState["withIds"];
}

/** Which model lies beside this swing: links, the nearest first, each with its tags and with what is otherwise. */
export function ChooseModel({ sheet: { swingId, clipId, models }, withIds }: ChooseModelProps) {
  const { options, noneMatch, chosenId } = models;
  const hrefOf = (modelId?: string) => sheetAddress({ swingId, clipId, withIds, modelId });
  return (
    <details key={chosenId} className="fold choose no-print">
      <summary className="btn">{chosenId ? words.otherModel : words.model}</summary>
      <div className="choice-list">
        {noneMatch ? (
          <p className="small" role="note">
            {noneMatch}
          </p>
        ) : null}
        {options.length === 0 ? <p className="small quiet">{words.noModel}</p> : null}
        {chosenId ? (
          <Link className="btn" href={hrefOf()}>
            {words.takeModel}
          </Link>
        ) : null}
        <ul className="models">
          {options.map((model) => (
            <li key={model.id} className={classNames(model.isTurned && "turned")}>
              <Cut src={model.posterUrl} alt="" />
              <div className="told">
                <h3>
                  {model.id === chosenId ? (
                    <>
                      {model.label}, {words.modelIsHere}
                    </>
                  ) : (
                    <Link href={hrefOf(model.id)} aria-label={words.layModel(model.label)}>
                      {model.label}
                    </Link>
                  )}
                </h3>
                <Told model={model} />
              </div>
            </li>
          ))}
        </ul>
      </div>
    </details>
  );
}

function Told({ model }: { readonly model: ModelOption }) {
  const near = model.reasons.filter(({ isNear }) => isNear).map((it) => it.words);
  const far = model.reasons.filter(({ isNear }) => !isNear).map((it) => it.words);
  return (
    <>
      <p className="small">
        {hitterWords(model)}. {modelTakenWords(model)}.
      </p>
      {near.length > 0 ? <p className="small quiet">{words.asAsked(near)}</p> : null}
      {far.length > 0 ? <p className="small">{words.otherwise(far)}</p> : null}
      {model.besideChild ? <p className="small">{model.besideChild}</p> : null}
    </>
  );
}
