import type { SheetRow } from "../../sheet/view";
import { sheetWords as words, whichSwing } from "./sheet-words";

/** Which clip a row shows, how it was filmed, and in what it is not like this swing. */
export function SheetRowHead({ row }: { readonly row: SheetRow }) {
  return (
    <th role="rowheader" scope="row">
      <span className="head">{words.row[row.kind]}</span>
      <p className="note">
        {whichSwing(row)}, {words.rate(row.framesPerSecond)}.
      </p>
      {row.picture.isMirrored ? <p className="note">{words.unmirrored}</p> : null}
      {row.unlike.length > 0 ? <p className="note untrusted">{words.notAlike(row.unlike.join("; "))}</p> : null}
    </th>
  );
}
