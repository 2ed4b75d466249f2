import { Button } from "@/lib/ui/button";
import { CheckRow } from "@/lib/ui/check-row";
import { MOST_OTHERS } from "../../sheet/schema";
import type { SheetView } from "../../sheet/view";
import { sheetWords as words, whichSwing } from "./sheet-words";

interface ChooseSwingsProps {
  readonly sheet: Pick<SheetView, "swingId" | "clipId" | "choices" | "models">;
}

/** Which other swings lie beside this one: a form of ticks that works without script. */
export function ChooseSwings({ sheet: { swingId, clipId, choices, models } }: ChooseSwingsProps) {
  return (
    <details className="fold choose no-print">
      <summary className="btn">{words.choose}</summary>
      {choices.length === 0 ? (
        <p className="small quiet">{words.noChoice}</p>
      ) : (
        <form action={`/swings/${swingId}/sheet`} method="get">
          <input type="hidden" name="clip" value={clipId} />
          <input type="hidden" name="with" value="none" />
          {models.chosenId ? <input type="hidden" name="model" value={models.chosenId} /> : null}
          <p className="small quiet">{words.chooseMost(MOST_OTHERS)}</p>
          {choices.map((it) => (
            <CheckRow
              key={it.swingId} name="with" value={it.swingId} defaultChecked={it.isChosen} label={whichSwing(it)}
              hint={it.unlike.length > 0 ? words.notAlike(it.unlike.join("; ")) : undefined}
            />
          ))}
          <Button type="submit">{words.chooseDone}</Button>
        </form>
      )}
    </details>
  );
}
