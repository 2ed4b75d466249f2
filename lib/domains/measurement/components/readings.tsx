import { State } from "@/lib/ui/state";
import type { Reading } from "@/lib/measure/reading";
import { namedWords, readingWords } from "@/lib/measure/reading-words";
import type { CheckpointToRead } from "../view";
import { measurementWords as words } from "./words";

interface ReadingsProps {
  readonly checkpoints: readonly CheckpointToRead[];
  readonly readings: readonly Reading[];
}

/** What the checkpoints read on a clip: words first, the number on demand, grey with its reason where it is not to be trusted. */
export function Readings({ checkpoints, readings }: ReadingsProps) {
  const names = new Map(checkpoints.map((it) => [it.id, it.name]));
  const nameOf = (reading: Reading) => names.get(reading.checkpointId) ?? reading.checkpointId;
  const read = readings.filter((it) => it.value !== null);
  const unread = readings.filter((it) => it.value === null);
  return (
    <section className="measured" aria-labelledby="readings-title">
      <h2 id="readings-title">{words.title}</h2>
      {read.length > 0 ? (
        <ul className="readings">
          {[...read].sort((a, b) => rank(a) - rank(b)).map((it) => (
            <OneReading key={it.checkpointId} reading={it} name={nameOf(it)} />
          ))}
        </ul>
      ) : (
        <p className="quiet">{readings.length > 0 ? words.noneYet : words.noLibrary}</p>
      )}
      {unread.length > 0 ? (
        <details>
          <summary>{words.notRead(unread.length)}</summary>
          <ul className="readings">
            {unread.map((it) => (
              <li key={it.checkpointId} className="off">
                <b>{nameOf(it)}</b>
                <br />
                {readingWords(it).why[0] ?? words.notReadHere}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

/** What speaks comes first, what is not trusted last. */
function rank({ verdict, isGrey }: Reading): number {
  if (isGrey) return 4;
  return { "talk-about": 0, watch: 1, "cannot-tell": 2, fine: 3 }[verdict ?? "cannot-tell"];
}

function OneReading({ reading, name }: { readonly reading: Reading; readonly name: string }) {
  const said = readingWords(reading);
  const { verdict, size, isGrey } = reading;
  const isSpeaking = verdict === "talk-about" || verdict === "watch";
  if (isGrey || verdict === null) {
    return (
      <li className={isGrey ? "off" : undefined}>
        <b>{name}</b>
        <br />
        {isGrey ? said.why[0] : said.words}
        <Detail reading={reading} name={name} />
      </li>
    );
  }
  return (
    <li className={verdict === "fine" ? "ok" : undefined}>
      <State is={verdict} /> {isSpeaking && size ? <State is={size} className="amount" /> : null} <span className="what">{name}</span>
      <Detail reading={reading} name={name} />
    </li>
  );
}

/** The number with its doubt, the further values, and what to keep in mind; shown when it is asked for. */
function Detail({ reading, name }: { readonly reading: Reading; readonly name: string }) {
  const said = readingWords(reading);
  const named = reading.named.flatMap((it) => {
    const text = namedWords(it);
    return text === null ? [] : [{ id: it.id, name: it.name, text }];
  });
  return (
    <details>
      <summary>
        {words.number}
        <span className="hush"> {words.of(name)}</span>
      </summary>
      <p>{said.number}</p>
      {named.map((it) => (
        <p key={it.id}>
          {it.name}: {it.text}
        </p>
      ))}
      {said.why.map((why) => (
        <p key={why} className="quiet">
          {why}.
        </p>
      ))}
    </details>
  );
}
