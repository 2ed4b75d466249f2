import Link from "next/link";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ChildLoginForm } from "@/lib/domains/identity/components/password-forms";
import { getChildLogin } from "@/lib/domains/identity/queries";
import { longDay } from "@/lib/domains/plans/view";
import { Consents } from "@/lib/domains/practice/components/consents";
import { ParentsSummary } from "@/lib/domains/practice/components/parents-page";
import { StopPart } from "@/lib/domains/practice/components/stop-part";
import { getParentsPage } from "@/lib/domains/practice/queries";
import { clearPauseAsFamily, recordConsent, withdrawConsent } from "@/lib/domains/roster/actions";
import { takeBackSwings } from "@/lib/domains/roster/loads/actions";
import { ElsewhereForm } from "@/lib/domains/roster/components/elsewhere-form";
import { LogSwingsForm } from "@/lib/domains/roster/components/log-swings-form";
import { getSwingsElsewhere } from "@/lib/domains/roster/loads/queries";
import { elsewhereWords } from "@/lib/domains/roster/loads/view";
import { listConsents } from "@/lib/domains/roster/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf } from "@/lib/ui/leaf";

export const metadata = { title: "For parents" };

export default async function Parents({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const view = await getParentsPage({ playerId });
  const [consents, child, swings] = await Promise.all([listConsents({ playerId }), getChildLogin({ playerId }), getSwingsElsewhere({ playerId })]);
  return (
    <Leaf kind="portal">
      <div className="flow-wide">
        <StopPart view={view} clear={clearPauseAsFamily} />
        <ParentsSummary view={view} />
        <div className="no-print">
          <Entry side="What you said yes to" isHeading isStrong>
            <Consents playerId={playerId} consents={consents} withdraw={withdrawConsent} record={recordConsent} />
          </Entry>
          <Entry side="Swings elsewhere" note="team, lessons, games" isHeading isStrong>
            <p>{elsewhereWords(swings.sources)}. Limits count every swing, wherever it was.</p>
            {swings.logs.length > 0 ? (
              <ul className="flow">
                {swings.logs.map(({ id, day, source, swings: count, isGuess }) => (
                  <li key={id}>
                    {longDay(day)}: {source}, {count} swings{isGuess ? " (taken as)" : ""}{" "}
                    <ActButton action={takeBackSwings} fields={{ playerId, logId: id }} kind="plain" label={`Take back ${count} swings of ${longDay(day)}`}>
                      Take back
                    </ActButton>
                  </li>
                ))}
              </ul>
            ) : null}
            <details>
              <summary className="btn plain">Write down swings</summary>
              <LogSwingsForm playerId={playerId} today={swings.today} />
            </details>
            <details>
              <summary className="btn plain">Change the usual week</summary>
              <ElsewhereForm playerId={playerId} sources={swings.sources} />
            </details>
          </Entry>
          <Entry side="Who looked at clips" note="at the academy" isHeading isStrong>
            {view.watchers.length > 0 ? (
              <ul className="flow">
                {view.watchers.map(({ day, names }) => (
                  <li key={day}>
                    <b>{longDay(day)}:</b> {names.join(", ")}
                  </li>
                ))}
              </ul>
            ) : (
              <p>Nobody at the academy has looked at a clip yet.</p>
            )}
          </Entry>
          <Entry side={`How ${child.givenName} signs in`} isHeading isStrong>
            <ChildLoginForm child={child} />
          </Entry>
          <Entry side="Your own sign-in" isHeading isStrong>
            <p>
              <Link href="/account">Password, devices and roles</Link>
            </p>
          </Entry>
        </div>
      </div>
    </Leaf>
  );
}
