import Link from "next/link";
import { currentSay, titled } from "@/lib/access/current-say";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ChildLoginForm } from "@/lib/domains/identity/components/password-forms";
import { getChildLogin } from "@/lib/domains/identity/queries";
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

export const generateMetadata = titled("For parents");

export default async function Parents({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const view = await getParentsPage({ playerId });
  const [consents, child, swings] = await Promise.all([listConsents({ playerId }), getChildLogin({ playerId }), getSwingsElsewhere({ playerId })]);
  const say = await currentSay(await getTranslations({ texts: view.plans.map(({ note }) => note.oneThing) }));
  return (
    <Leaf kind="portal">
      <div className="flow-wide">
        <StopPart view={view} clear={clearPauseAsFamily} say={say} />
        <ParentsSummary view={view} say={say} />
        <div className="no-print">
          <Entry side={say("What you said yes to")} isHeading isStrong>
            <Consents playerId={playerId} consents={consents} withdraw={withdrawConsent} record={recordConsent} say={say} />
          </Entry>
          <Entry side={say("Swings elsewhere")} note={say("team, lessons, games")} isHeading isStrong>
            <p>{elsewhereWords(swings.sources, say)}. {say("Limits count every swing, wherever it was.")}</p>
            {swings.logs.length > 0 ? (
              <ul className="flow">
                {swings.logs.map(({ id, day, source, swings: count, isGuess }) => (
                  <li key={id}>
                    {isGuess ? say("{day}: {source}, {count} swings (taken as)", { day: say.day(day), source: say(source), count }) : say("{day}: {source}, {count} swings", { day: say.day(day), source: say(source), count })}{" "}
                    <ActButton action={takeBackSwings} fields={{ playerId, logId: id }} kind="plain" label={say("Take back {count} swings of {day}", { count, day: say.day(day) })}>
                      {say("Take back")}
                    </ActButton>
                  </li>
                ))}
              </ul>
            ) : null}
            <details>
              <summary className="btn plain">{say("Write down swings")}</summary>
              <LogSwingsForm playerId={playerId} today={swings.today} />
            </details>
            <details>
              <summary className="btn plain">{say("Change the usual week")}</summary>
              <ElsewhereForm playerId={playerId} sources={swings.sources} />
            </details>
          </Entry>
          <Entry side={say("Who looked at clips")} note={say("at the academy")} isHeading isStrong>
            {view.watchers.length > 0 ? (
              <ul className="flow">
                {view.watchers.map(({ day, names }) => (
                  <li key={day}>
                    <b>{say.day(day)}:</b> {names.join(", ")}
                  </li>
                ))}
              </ul>
            ) : (
              <p>{say("Nobody at the academy has looked at a clip yet.")}</p>
            )}
          </Entry>
          <Entry side={say("How {name} signs in", { name: child.givenName })} isHeading isStrong>
            <ChildLoginForm child={child} />
          </Entry>
          <Entry side={say("Your own sign-in")} isHeading isStrong>
            <p>
              <Link href="/account">{say("Password, devices and roles")}</Link>
            </p>
          </Entry>
        </div>
      </div>
    </Leaf>
  );
}
