import type { CameraView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import { Tally } from "@/lib/ui/count-row";
import type { CheckpointToRead, ComparableReadings } from "../view";
import { SeveralLines } from "./several-of-reading";
import { severalRows, type SeveralRow } from "./several-rows";
import { severalText as text } from "./several-words";

interface SeveralSwingsProps {
  /** What `listComparableReadings({ swingId })` gave. */
  readonly comparable: ComparableReadings;
  /** The book's checkpoints, for their names. */
  readonly checkpoints: readonly CheckpointToRead[];
  /** This swing's readings on the clip shown, as they are now; they stand in the place of the kept ones. */
  readonly readings: readonly Reading[];
  /** From where the clip shown was filmed. */
  readonly view: CameraView;
}

const DAY = new Intl.DateTimeFormat("en-US", { day: "numeric", month: "long", timeZone: "UTC" });
const dayWords = (day: string) => DAY.format(new Date(`${day}T00:00:00Z`));

/**
 * How this player's comparable swings read: which swings they are and which were left out and why, then by checkpoint in
 * how many it was one to talk about, whether it changed, the usual spread. Made again from its props whenever they change:
 * no state, no fetching; works inside a client component and on the server.
 */
export function SeveralSwings({ comparable, checkpoints, readings, view }: SeveralSwingsProps) {
  const { swings, leftOut, notNoted } = comparable;
  const names = new Map(checkpoints.map((it) => [it.id, it.name]));
  const nameOf = ({ checkpointId }: SeveralRow) => names.get(checkpointId) ?? checkpointId;
  const rows = severalRows(comparable, readings, view);
  const isLoud = ({ several: { change, seen } }: SeveralRow) => change.word === "changed" || seen.seen > 0;
  const loud = rows.filter(isLoud);
  const quiet = rows.filter((row) => !isLoud(row));
  const [newest, oldest] = [swings[0]?.filmedOn, swings.at(-1)?.filmedOn];
  const days = newest && oldest && newest !== oldest ? `${dayWords(oldest)} to ${dayWords(newest)}` : dayWords(newest ?? "1970-01-01");
  return (
    <section className="measured" aria-labelledby="several-title">
      <h2 id="several-title">{text.title}</h2>
      <p className="small quiet">{swings.length > 1 ? text.alike(swings.length, days) : text.alone}</p>
      {leftOut.map(({ count, words }) => (
        <p key={words} className="small untrusted">
          {text.leftOut(count, words)}
        </p>
      ))}
      {notNoted.length > 0 ? <p className="small quiet">{text.notNoted(notNoted.join(", "))}</p> : null}
      {swings.length > 1 && rows.length === 0 ? <p className="small quiet">{text.unread}</p> : null}
      <div className="reading-group">
        {loud.map((row) => (
          <SeveralEntry key={row.checkpointId} row={row} name={nameOf(row)} />
        ))}
      </div>
      {quiet.length > 0 ? (
        <details className="fold">
          <summary>{text.quiet(quiet.length)}</summary>
          {quiet.map((row) => (
            <SeveralEntry key={row.checkpointId} row={row} name={nameOf(row)} />
          ))}
        </details>
      ) : null}
    </section>
  );
}

/** One checkpoint: the word and the count in the line, the rest on opening. */
function SeveralEntry({ row, name }: { readonly row: SeveralRow; readonly name: string }) {
  const { seen, change } = row.several;
  return (
    <details className="reading">
      <summary>
        <span className="call">
          <span className="quiet">{text.short[change.word]}</span>
        </span>
        <span className="what">
          {name}
          {seen.seen > 0 ? (
            <>
              <br />
              <span className="quiet">
                <Tally count={seen.seen} total={seen.judged} notVisible={seen.unknown} />
                {text.count(seen.seen, seen.judged)}
              </span>
            </>
          ) : null}
        </span>
      </summary>
      <div className="more">
        <SeveralLines row={row} />
      </div>
    </details>
  );
}
