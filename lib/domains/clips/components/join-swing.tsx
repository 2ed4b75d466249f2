import { Select } from "@/lib/ui/select";
import type { SwingToJoin } from "../schema";
import type { CameraView } from "../view";
import { addWords as words, factOptions } from "./add-words";
import { viewNames } from "./words";

interface JoinSwingProps {
  readonly swings: readonly SwingToJoin[];
  readonly joined: SwingToJoin | null;
  /** The view that is answered in the form now. */
  readonly view: CameraView;
  readonly onJoin: (swingId: string) => void;
}

/** Asks whether a film shows a swing that is here already, from another camera. */
export function JoinSwing({ swings, joined, view, onJoin }: JoinSwingProps) {
  if (swings.length === 0) return null;
  const options = swings.map((it) => ({ value: it.id, label: swingWords(it) }));
  const isTwice = joined?.views.includes(view) ?? false;
  return (
    <>
      <Select
        name="swingId" label={words.join.label} hint={joined ? words.join.shared : words.join.hint} options={options} empty={words.join.own} defaultValue={joined?.id ?? ""}
        onChange={(event) => onJoin(event.target.value)}
      />
      {joined
        ? Object.entries({ ...joined.facts, filmedOn: joined.filmedOn }).map(([name, value]) => <input key={name} type="hidden" name={name} value={value} />)
        : null}
      <p className="note" role="status">
        {isTwice ? words.join.twice(viewNames[view]) : ""}
      </p>
    </>
  );
}

const DAY = new Intl.DateTimeFormat("en-US", { day: "numeric", month: "long", timeZone: "UTC" });

/** "25 November, from the right, off a tee: side; added at 3:10 PM". */
function swingWords({ filmedOn, facts, views, addedAt }: SwingToJoin): string {
  const task = factOptions.task.find(({ value }) => value === facts.task)?.label.toLowerCase() ?? facts.task;
  const day = DAY.format(new Date(`${filmedOn}T00:00:00Z`));
  return words.join.swing({ day, side: facts.side, task, views: views.map((it) => viewNames[it]).join(", "), hour: addedAt });
}
