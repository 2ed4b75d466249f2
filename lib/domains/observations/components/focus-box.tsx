import { ButtonLink } from "@/lib/ui/button";
import { SubmitButton } from "@/lib/ui/submit-button";
import { endFocus, parkFocus, resumeFocus } from "../actions";
import { dayWords, type FocusPairView, type FocusView } from "../view";
import { AnswerForm } from "./answer-form";
import { ClickedCue } from "./clicked-cue";
import { words } from "./words";

interface FocusBoxProps {
  foci: FocusPairView;
  playerId: string;
  side: string;
  /** Where the homework for it is made; left out where that stands elsewhere on the page. */
  planHref?: string;
}

/** What is in focus, two at most, and what is parked in sight of everybody. */
export function FocusBox({ foci, playerId, side, planHref }: FocusBoxProps) {
  const who = { playerId, side };
  return (
    <section className="dock" aria-label={words.focus.title}>
      <div>
        <span className="label">{words.focus.active}</span>
        {foci.active.length === 0 ? <p>{words.focus.none}</p> : null}
        {foci.active.map((focus) => (
          <OneFocus key={focus.id} focus={focus} isStrong cue={<ClickedCue focus={focus} who={who} />}>
            <AnswerForm action={parkFocus} given={{ ...who, focusId: focus.id }}>
              <SubmitButton kind="plain">{words.focus.park}</SubmitButton>
            </AnswerForm>
            <AnswerForm action={endFocus} given={{ ...who, focusId: focus.id }}>
              <SubmitButton kind="plain">{words.focus.end}</SubmitButton>
            </AnswerForm>
          </OneFocus>
        ))}
      </div>
      {foci.parked.length > 0 ? (
        <div>
          <span className="label">{words.focus.parked}</span>
          {foci.parked.map((focus) => (
            <OneFocus key={focus.id} focus={focus}>
              <ResumeForms focus={focus} active={foci.active} who={who} />
              <AnswerForm action={endFocus} given={{ ...who, focusId: focus.id }}>
                <SubmitButton kind="plain">{words.focus.end}</SubmitButton>
              </AnswerForm>
            </OneFocus>
          ))}
        </div>
      ) : null}
      {planHref && foci.active.length > 0 ? (
        <ButtonLink kind="main" className="push" href={planHref}>
          {words.focus.plan}
        </ButtonLink>
      ) : null}
    </section>
  );
}

function OneFocus({ focus, isStrong, cue, children }: { focus: FocusView; isStrong?: boolean; cue?: React.ReactNode; children: React.ReactNode }) {
  return (
    <div>
      <p>
        {isStrong ? <b>{focus.name}</b> : focus.name} <span className="note">{words.focus.since(dayWords(focus.since))}</span>
      </p>
      {focus.hasClicked ? (
        <p>
          <span className="said">“{focus.cue}”</span> <span className="note">{words.cue.clicked}</span>
        </p>
      ) : null}
      {cue}
      <details>
        <summary className="btn plain">
          {words.focus.change}
          <span className="hush">: {focus.name}</span>
        </summary>
        <div className="bar-line">{children}</div>
      </details>
    </div>
  );
}

/** Taking one up again asks which of two shall be parked for it. */
function ResumeForms({ focus, active, who }: { focus: FocusView; active: readonly FocusView[]; who: { playerId: string; side: string } }) {
  const given = { ...who, focusId: focus.id };
  if (active.length < 2) {
    return (
      <AnswerForm action={resumeFocus} given={given}>
        <SubmitButton kind="plain">{words.focus.resume}</SubmitButton>
      </AnswerForm>
    );
  }
  return (
    <AnswerForm action={resumeFocus} given={given}>
      <p className="small">{words.candidate.parkFirst}</p>
      <div className="bar-line">
        {active.map(({ id, name }) => (
          <button key={id} type="submit" className="btn" name="parkId" value={id}>
            {words.candidate.park(name)}
          </button>
        ))}
      </div>
    </AnswerForm>
  );
}
