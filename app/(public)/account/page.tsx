import { currentSay, titled } from "@/lib/access/current-say";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ChangePasswordForm } from "@/lib/domains/identity/components/password-forms";
import { closeSession, signOut, signOutEverywhere, switchRole } from "@/lib/domains/identity/actions";
import { getMe, listMySessions } from "@/lib/domains/identity/queries";
import { ROLE_WORDS } from "@/lib/domains/identity/view";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("My sign-in");

export default async function AccountPage() {
  const [me, sessions] = await Promise.all([getMe({}), listMySessions({})]);
  const say = await currentSay();
  const others = me.roles.filter((role) => role !== me.role);
  return (
    <Leaf>
      <Opening
        title={me.name}
        sub={say("{academy}. You are here as {role} and sign in as {signInName}.", { academy: me.academyName, role: say.told(ROLE_WORDS[me.role]), signInName: me.signInName })}
        actions={<ActButton action={signOut}>{say("Sign out")}</ActButton>}
      />
      {others.length > 0 ? (
        <Entry side={say("Your roles")} isHeading isStrong>
          <p>{say("One role is active at a time. What you see follows it.")}</p>
          <div className="bar-line">
            {others.map((role) => (
              <ActButton key={role} action={switchRole} fields={{ role }}>
                {say("Go on as {role}", { role: say.told(ROLE_WORDS[role]) })}
              </ActButton>
            ))}
          </div>
        </Entry>
      ) : null}
      <Entry side={say("Signed in on")} isHeading isStrong>
        <ul className="plain-list">
          {sessions.map((session) => (
            <li key={session.id} className="bar-line">
              <span>
                {say("{device}, since {day}", { device: say.told(session.device), day: session.since })}
              </span>
              {session.isThisOne ? (
                <b>{say("this one")}</b>
              ) : (
                <ActButton action={closeSession} fields={{ sessionId: session.id }} label={say("Sign out {device}, since {day}", { device: say.told(session.device), day: session.since })}>
                  {say("Sign out there")}
                </ActButton>
              )}
            </li>
          ))}
        </ul>
        {sessions.length > 1 ? <ActButton action={signOutEverywhere}>{say("Sign out everywhere")}</ActButton> : null}
      </Entry>
      <Entry side={say("Password")} isHeading isStrong>
        <ChangePasswordForm />
      </Entry>
    </Leaf>
  );
}
