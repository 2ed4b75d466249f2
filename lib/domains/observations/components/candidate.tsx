import { State } from "@/lib/ui/state";
import type { FocusView } from "../view";
import type { CandidateView, ReasonsView, ReasonView } from "../working-out/view";
import { ChainDrawing } from "./chain-drawing";
import { ChooseFocus } from "./choose-focus";
import { OverruleForm } from "./overrule-form";
import { words } from "./words";

interface CandidateProps {
  candidate: CandidateView;
  /** 1 for the first. */
  place: number;
  playerId: string;
  side: string;
  active: readonly FocusView[];
  /** The season leaves it alone for now. */
  isWaiting: boolean;
}

/** One thing that could be worked on first: why, what speaks against it, the chain, and the coach's decision. */
export function CandidateCard({ candidate, place, playerId, side, active, isWaiting }: CandidateProps) {
  const { faultId, name, sentence, word, liftWords, numbers, against, reasons, chain, isInFocus } = candidate;
  const who = { playerId, side };
  return (
    <article className={place === 1 ? "cand first" : "cand"} id={`first-${faultId}`}>
      <span className="ord" aria-hidden="true">
        {place}
      </span>
      <div>
        <h3>{name}</h3>
        <p className="why">
          <b>{words.candidate[word]}.</b> {sentence}
          {against.length > 0 ? ` ${words.candidate.against(against.map((effect) => `“${effect}”`).join(", "))}` : null}
        </p>
        <div className="act">
          {isInFocus ? <p>{words.candidate.inFocus}</p> : null}
          {!isInFocus && isWaiting ? (
            <p>
              {words.candidate.waits} <a href="#season">{words.candidate.whyWaits}</a>
            </p>
          ) : null}
          {!isInFocus && !isWaiting ? <ChooseFocus given={{ ...who, faultId }} active={active} isMain={place === 1} name={name} /> : null}
          <details>
            <summary className="btn plain">
              {words.candidate.overrule}
              <span className="hush">: {name}</span>
            </summary>
            <OverruleForm given={{ ...who, faultId }} />
          </details>
        </div>
        <div className="bar-line">
          {reasons && place > 1 ? (
            <details>
              <summary className="btn plain">
                {words.candidate.why}
                <span className="hush">: {name}</span>
              </summary>
              <Reasons reasons={reasons} />
            </details>
          ) : null}
          <details>
            <summary className="btn plain">
              {words.candidate.numbers}
              <span className="hush">: {name}</span>
            </summary>
            <p className="small">
              {numbers}. {liftWords.charAt(0).toUpperCase() + liftWords.slice(1)}.
            </p>
          </details>
        </div>
        {reasons && place === 1 ? <Reasons reasons={reasons} /> : null}
      </div>
      <ChainDrawing chain={chain} isFirst={place === 1} name={name} />
    </article>
  );
}

/** So many stand in the open; the others behind one press. */
const IN_THE_OPEN = 4;

/** Every observation left out once, strongest first, and how much each weighs in words. */
function Reasons({ reasons }: { reasons: ReasonsView }) {
  return (
    <dl className="words">
      <ReasonRow term={words.candidate.raisedBy} reasons={reasons.raisedBy} />
      {reasons.speaksAgainst.length > 0 ? <ReasonRow term={words.candidate.speaksAgainst} reasons={reasons.speaksAgainst} /> : null}
      {reasons.notWorkedOutCount > 0 ? (
        <div className="word-row">
          <dt>{words.candidate.notWorkedOut}</dt>
          <dd>{words.candidate.tooLinked(reasons.notWorkedOutCount)}</dd>
        </div>
      ) : null}
    </dl>
  );
}

function ReasonRow({ term, reasons }: { term: string; reasons: readonly ReasonView[] }) {
  const rest = reasons.slice(IN_THE_OPEN);
  return (
    <div className="word-row">
      <dt>{term}</dt>
      <dd>
        {reasons.length === 0 ? words.candidate.nothing : reasons.slice(0, IN_THE_OPEN).map((reason) => <OneReason key={reason.words} reason={reason} />)}
        {rest.length > 0 ? (
          <details>
            <summary className="btn plain">{words.candidate.moreReasons(rest.length)}</summary>
            {rest.map((reason) => (
              <OneReason key={reason.words} reason={reason} />
            ))}
          </details>
        ) : null}
      </dd>
    </div>
  );
}

function OneReason({ reason }: { reason: ReasonView }) {
  return (
    <div>
      {reason.words} <State is={reason.size}>{words.candidate.weighs[reason.size]}</State>
    </div>
  );
}
