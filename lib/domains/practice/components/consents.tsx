import type { Say } from "@/lib/core/words/say";
import { ActButton, type FormAction } from "@/lib/domains/identity/components/act-button";
import type { ConsentUse } from "@/lib/domains/roster/rules";
import type { ConsentView } from "@/lib/domains/roster/view";
import { CONSENT_WORDS } from "./words";

interface ConsentsProps {
  playerId: string;
  consents: readonly ConsentView[];
  withdraw: FormAction;
  record: FormAction;
  say: Say;
}

/** What was said yes to, until when, and the way to take it back or to say it again. */
export function Consents({ playerId, consents, withdraw, record, say }: ConsentsProps) {
  const inForce = (use: ConsentUse) => consents.find((consent) => consent.use === use && consent.isValid);
  // Filming for lessons is what everything rests on; the other uses stand here only while there is something to take back.
  const uses = (Object.keys(CONSENT_WORDS) as ConsentUse[]).filter((use) => use === "lesson" || inForce(use));
  return (
    <div className="flow">
      {uses.map((use) => {
        const consent = inForce(use);
        const [name, means] = [say(CONSENT_WORDS[use].name), say(CONSENT_WORDS[use].means)];
        return (
          <div key={use} className="flow">
            <p>
              <b>{name}.</b> {means}
            </p>
            {consent ? (
              <>
                <p>
                  {consentWords(consent, say)} {say("It holds until {day} {year}.", { day: say.day(consent.validUntil), year: consent.validUntil.slice(0, 4) })}
                </p>
                <p className="small quiet">{say("If you withdraw it, every clip and still is gone from all pages at once. You can say yes again later.")}</p>
                <ActButton action={withdraw} fields={{ playerId, use }} kind="plain" label={say("Withdraw: {name}", { name })}>
                  {say("Withdraw")}
                </ActButton>
              </>
            ) : (
              <>
                <p>{say("No yes is in force. Nothing is filmed, and no picture is shown.")}</p>
                <ActButton action={record} fields={{ playerId, use }} kind="plain" label={say("Say yes for one year: {name}", { name })}>
                  {say("Say yes for one year")}
                </ActButton>
              </>
            )}
          </div>
        );
      })}
    </div>
  );
}

/** "Odile said yes on Monday 5 October, on paper." */
function consentWords({ givenBy, givenOn, method }: ConsentView, say: Say): string {
  const day = say.day(givenOn);
  if (givenBy) return method === "paper" ? say("{who} said yes on {day}, on paper.", { who: givenBy, day }) : say("{who} said yes on {day}.", { who: givenBy, day });
  return method === "paper" ? say("Said yes on {day}, on paper.", { day }) : say("Said yes on {day}.", { day });
}
