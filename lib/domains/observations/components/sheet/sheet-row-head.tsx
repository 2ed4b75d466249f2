import { hitterWords } from "@/lib/domains/clips/components/models/words";
import { NOT_A_MARK } from "@/lib/measure/several/near-models";
import type { SheetRow } from "../../sheet/view";
import { sheetWords as words, whichSwing } from "./sheet-words";

/** Which clip a row shows, how it was filmed, and in what it is not like this swing. */
export function SheetRowHead({ row }: { readonly row: SheetRow }) {
  const { model, filmedOn, place, framesPerSecond, picture, unlike } = row;
  if (model) {
    return (
      <th role="rowheader" scope="row">
        <span className="head">{words.row.model}</span>
        <p>{model.label}</p>
        <p className="note">
          {hitterWords(model)}, {words.rate(framesPerSecond)}.
        </p>
        {unlike.length > 0 ? <p className="note untrusted">{words.otherwise(unlike)}</p> : null}
        <p className="note">{model.besideChild ?? NOT_A_MARK}</p>
      </th>
    );
  }
  return (
    <th role="rowheader" scope="row">
      <span className="head">{words.row[row.kind]}</span>
      <p className="note">
        {filmedOn === null ? null : `${whichSwing({ filmedOn, place })}, `}
        {words.rate(framesPerSecond)}.
      </p>
      {picture.isMirrored ? <p className="note">{words.unmirrored}</p> : null}
      {unlike.length > 0 ? <p className="note untrusted">{words.notAlike(unlike.join("; "))}</p> : null}
    </th>
  );
}
