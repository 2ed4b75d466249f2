import Link from "next/link";
import type { CandidateView, FocusView, ReasonView } from "../view";
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
  /** The page's own address with the reasons of this one worked out. */
  whyHref: string;
}

/** One thing that could be worked on first: why, what speaks against it, the chain, and the coach's decision. */
export function CandidateCard({ candidate, place, playerId, side, active, whyHref }: CandidateProps) {
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
          {isInFocus ? <p>{words.candidate.inFocus}</p> : <ChooseFocus given={{ ...who, faultId }} active={active} isMain={place === 1} name={name} />}
          <details>
            <summary className="btn plain">
              {words.candidate.overrule}
              <span className="hush">: {name}</span>
            </summary>
            <OverruleForm given={{ ...who, faultId }} />
          </details>
        </div>
        <div className="bar-line">
          {reasons ? null : (
            <Link className="btn plain" href={whyHref} scroll={false}>
              {words.candidate.why}
              <span className="hush">: {name}</span>
            </Link>
          )}
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
        {reasons ? <Reasons reasons={reasons} /> : null}
      </div>
      <ChainDrawing chain={chain} isFirst={place === 1} name={name} />
    </article>
  );
}

/** Every observation left out once, strongest first. */
function Reasons({ reasons }: { reasons: NonNullable<CandidateView["reasons"]> }) {
  return (
    <dl className="words">
      <ReasonRow term={words.candidate.raisedBy} reasons={reasons.raisedBy} />
      <ReasonRow term={words.candidate.speaksAgainst} reasons={reasons.speaksAgainst} />
    </dl>
  );
}

function ReasonRow({ term, reasons }: { term: string; reasons: readonly ReasonView[] }) {
  return (
    <div className="word-row">
      <dt>{term}</dt>
      <dd>{reasons.length === 0 ? words.candidate.nothing : reasons.map((reason) => <div key={reason.words}>{reason.words}</div>)}</dd>
    </div>
  );
}
