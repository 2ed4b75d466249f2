import { Select } from "@/lib/ui/select";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextArea } from "@/lib/ui/text-input";
import { agreeInSeason } from "../season/actions";
import type { SeasonStanding } from "../season/view";
import { AnswerForm } from "./answer-form";
import { words } from "./words";

interface SeasonBoxProps {
  season: SeasonStanding;
  faults: readonly { readonly faultId: string; readonly name: string }[];
  playerId: string;
  side: string;
}

/** What the season leaves alone, why, and who can agree otherwise; a yes stands with its reason. */
export function SeasonBox({ season, faults, playerId, side }: SeasonBoxProps) {
  if (season.refusal === null && season.yeses.length === 0) return null;
  const options = faults
    .filter(({ faultId }) => season.waiting.includes(faultId) || season.keeping.includes(faultId))
    .map(({ faultId, name }) => ({ value: faultId, label: season.keeping.includes(faultId) ? words.season.otherDrills(name) : name }))
    .sort((a, b) => (a.label < b.label ? -1 : 1));
  return (
    <section className="q" id="season" aria-label={words.season.title}>
      <h3>{season.words}</h3>
      {season.refusal ? <p>{season.refusal}</p> : null}
      {season.yeses.map((yes) => (
        <p key={yes.faultId}>
          <b>{yes.name}</b> {words.season.agreed(yes.by, yes.reason)}
        </p>
      ))}
      {season.refusal && !season.canAgree ? <p className="small">{words.season.askHead}</p> : null}
      {season.refusal && season.canAgree ? (
        <details>
          <summary className="btn plain">{words.season.agree}</summary>
          <AnswerForm action={agreeInSeason} given={{ playerId, side }} className="form">
            <Select name="faultId" label={words.candidate.which} options={options} empty required />
            <TextArea name="reason" rows={2} label={words.season.reason} hint={words.candidate.reasonHint} required />
            <SubmitButton kind={undefined}>{words.season.keep}</SubmitButton>
          </AnswerForm>
        </details>
      ) : null}
    </section>
  );
}
