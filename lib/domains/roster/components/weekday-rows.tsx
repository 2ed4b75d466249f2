import { english, type Say } from "@/lib/core/words/say";
import { CheckRow } from "@/lib/ui/check-row";
import { weekdayName } from "../loads/view";

/** Monday to Sunday, to be ticked. */
export function WeekdayRows({ name, legend, hint, chosen, say = english }: { name: string; legend: string; hint?: string; chosen: readonly number[]; say?: Say }) {
  return (
    <fieldset className="field">
      <legend>{legend}</legend>
      {hint ? <p className="hint">{hint}</p> : null}
      <div className="gear-list">
        {[1, 2, 3, 4, 5, 6, 7].map((weekday) => (
          <CheckRow key={weekday} name={name} value={String(weekday)} label={weekdayName(weekday, say)} defaultChecked={chosen.includes(weekday)} />
        ))}
      </div>
    </fieldset>
  );
}
