import { ActButton, type FormAction } from "@/lib/domains/identity/components/act-button";
import { longDay } from "@/lib/domains/plans/view";
import type { ConsentUse } from "@/lib/domains/roster/rules";
import type { ConsentView } from "@/lib/domains/roster/view";
import { CONSENT_WORDS } from "./words";

interface ConsentsProps {
  playerId: string;
  consents: readonly ConsentView[];
  withdraw: FormAction;
  record: FormAction;
}

/** What was said yes to, until when, and the way to take it back or to say it again. */
export function Consents({ playerId, consents, withdraw, record }: ConsentsProps) {
  const inForce = (use: ConsentUse) => consents.find((consent) => consent.use === use && consent.isValid);
  // Filming for lessons is what everything rests on; the other uses stand here only while there is something to take back.
  const uses = (Object.keys(CONSENT_WORDS) as ConsentUse[]).filter((use) => use === "lesson" || inForce(use));
  return (
    <div className="flow">
      {uses.map((use) => {
        const consent = inForce(use);
        const { name, means } = CONSENT_WORDS[use];
        return (
          <div key={use} className="flow">
            <p>
              <b>{name}.</b> {means}
            </p>
            {consent ? (
              <>
                <p>
                  {consent.givenBy ? `${consent.givenBy} said yes` : "Said yes"} on {longDay(consent.givenOn)}
                  {consent.method === "paper" ? ", on paper" : ""}. It holds until {longDay(consent.validUntil)} {consent.validUntil.slice(0, 4)}.
                </p>
                <p className="small quiet">If you withdraw it, every clip and still is gone from all pages at once. You can say yes again later.</p>
                <ActButton action={withdraw} fields={{ playerId, use }} kind="plain" label={`Withdraw: ${name}`}>
                  Withdraw
                </ActButton>
              </>
            ) : (
              <>
                <p>No yes is in force. Nothing is filmed, and no picture is shown.</p>
                <ActButton action={record} fields={{ playerId, use }} kind="plain" label={`Say yes for one year: ${name}`}>
                  Say yes for one year
                </ActButton>
              </>
            )}
          </div>
        );
      })}
    </div>
  );
}
