import { clipAddress } from "@/lib/domains/clips/schema";
import { Cut } from "@/lib/ui/cut";
import { State } from "@/lib/ui/state";
import { callFault } from "../actions";
import { SIGHTS } from "../schema";
import type { CallRowView, CallSectionView, ReadingBesideView } from "../view";
import { AnswerForm } from "./answer-form";
import { SeenCount } from "./seen-count";
import { words } from "./words";

interface SwingInHand {
  playerId: string;
  side: string;
  swingId: string;
}

/** One thing that can be seen, with its still, what the readings say and the coach's three answers. */
export function CallRow({ row, swing }: { row: CallRowView; swing: SwingInHand }) {
  const { faultId, name, still, readings, ownCall, otherCalls, count, proposal, look } = row;
  const speaking = readings.find(({ verdict }) => verdict !== null);
  const given = { ...swing, faultId, clipId: still?.clipId, frameIndex: still?.frameIndex };
  return (
    <li className={still ? undefined : "no-still"} id={`fault-${faultId}`}>
      {still ? <Cut src={clipAddress.still(still.clipId, still.frameIndex)} alt="" /> : null}
      <div>
        <b>{name}</b>
        <p className="note">{speaking ? `${speaking.name}: ${speaking.words.toLowerCase()}` : look}</p>
        {count.judged + count.notVisible > 1 ? (
          <p className="small">
            <SeenCount {...count} />
          </p>
        ) : null}
        {otherCalls.map((call, index) => (
          <p key={index} className="note">
            {words.call.other(call.by, words.states[call.state])}
          </p>
        ))}
        <div className="bar-line">
          <AnswerForm action={callFault} given={given} className="bar-line">
            <div className="pick" role="group" aria-label={words.call.group(name)}>
              {SIGHTS.map((state) => (
                <button key={state} type="submit" name="state" value={state} aria-pressed={ownCall === state}>
                  <State is={state} />
                </button>
              ))}
            </div>
            {ownCall ? <Press value="take-back" text={words.call.takeBack} about={name} /> : null}
            {proposal && !ownCall ? <Press value="as-read" text={words.call.agree(words.states[proposal])} about={name} /> : null}
          </AnswerForm>
          {readings.length > 0 ? <ReadingsBeside readings={readings} name={name} /> : null}
        </div>
      </div>
    </li>
  );
}

function Press({ value, text, about }: { value: string; text: string; about: string }) {
  return (
    <button type="submit" className="btn plain" name="state" value={value}>
      {text}
      <span className="hush">: {about}</span>
    </button>
  );
}

/** Every reading that bears on it, words first, numbers and doubts behind one press. */
function ReadingsBeside({ readings, name }: { readings: readonly ReadingBesideView[]; name: string }) {
  return (
    <details>
      <summary className="btn plain">
        {words.call.numbers}
        <span className="hush">: {name}</span>
      </summary>
      <dl className="words">
        {readings.map((reading) => (
          <div key={reading.checkpointId} className="word-row">
            <dt>{reading.name}</dt>
            <dd>
              {reading.verdict ? <State is={reading.verdict}>{reading.words.toLowerCase()}</State> : reading.words}
              {reading.number ? `, ${reading.number}` : null}
              {reading.why.map((why) => (
                <span key={why} className="note">
                  {why}
                </span>
              ))}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** One of the academy's own questions with all that is looked for under it. */
export function CallSection({ section, swing }: { section: CallSectionView; swing: SwingInHand }) {
  // "What did the back leg do: did it load …?" reads as a head and a second line.
  const [head = "", more] = section.question.split(/:\s*/, 2);
  return (
    <section className="q">
      <h3>
        {more ? `${head}?` : head}
        {more ? <span className="note">{more.charAt(0).toUpperCase() + more.slice(1)}</span> : null}
      </h3>
      <ul className="obs">
        {section.rows.map((row) => (
          <CallRow key={row.faultId} row={row} swing={swing} />
        ))}
      </ul>
      {section.others.length > 0 ? (
        <details>
          <summary className="btn plain">{words.call.more(section.others.length)}</summary>
          <ul className="obs">
            {section.others.map((row) => (
              <CallRow key={row.faultId} row={row} swing={swing} />
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
