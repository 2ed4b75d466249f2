import { ActButton } from "@/lib/domains/identity/components/act-button";
import { ChangePasswordForm } from "@/lib/domains/identity/components/password-forms";
import { closeSession, signOut, signOutEverywhere, switchRole } from "@/lib/domains/identity/actions";
import { getMe, listMySessions } from "@/lib/domains/identity/queries";
import { ROLE_WORDS } from "@/lib/domains/identity/view";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "My sign-in" };

export default async function AccountPage() {
  const [me, sessions] = await Promise.all([getMe({}), listMySessions({})]);
  const others = me.roles.filter((role) => role !== me.role);
  return (
    <Leaf>
      <Opening
        title={me.name}
        sub={`${me.academyName}. You are here as ${ROLE_WORDS[me.role]} and sign in as ${me.signInName}.`}
        actions={<ActButton action={signOut}>Sign out</ActButton>}
      />
      {others.length > 0 ? (
        <Entry side="Your roles" isHeading isStrong>
          <p>One role is active at a time. What you see follows it.</p>
          <div className="bar-line">
            {others.map((role) => (
              <ActButton key={role} action={switchRole} fields={{ role }}>
                Go on as {ROLE_WORDS[role]}
              </ActButton>
            ))}
          </div>
        </Entry>
      ) : null}
      <Entry side="Signed in on" isHeading isStrong>
        <ul className="plain-list">
          {sessions.map((session) => (
            <li key={session.id} className="bar-line">
              <span>
                {session.device}, since {session.since}
              </span>
              {session.isThisOne ? (
                <b>this one</b>
              ) : (
                <ActButton action={closeSession} fields={{ sessionId: session.id }} label={`Sign out ${session.device}, since ${session.since}`}>
                  Sign out there
                </ActButton>
              )}
            </li>
          ))}
        </ul>
        {sessions.length > 1 ? <ActButton action={signOutEverywhere}>Sign out everywhere</ActButton> : null}
      </Entry>
      <Entry side="Password" isHeading isStrong>
        <ChangePasswordForm />
      </Entry>
    </Leaf>
  );
}
