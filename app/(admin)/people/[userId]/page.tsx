import { ActButton } from "@/lib/domains/identity/components/act-button";
import { GrantRoleForm } from "@/lib/domains/identity/components/staff-forms";
import { deactivate, endRole, inviteAgain, reactivate } from "@/lib/domains/identity/actions";
import { getPerson } from "@/lib/domains/identity/queries";
import { ROLE_WORDS } from "@/lib/domains/identity/view";
import { ReassignForm } from "@/lib/domains/roster/components/people-forms";
import { spanWords } from "@/lib/domains/roster/components/words";
import { listCoaches } from "@/lib/domains/roster/queries";
import { DialogButton } from "@/lib/ui/dialog";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Person" };

export default async function PersonPage({ params }: { params: Promise<{ userId: string }> }) {
  const { userId } = await params;
  const [person, coaches] = await Promise.all([getPerson({ userId }), listCoaches({})]);
  const teaches = coaches.find((coach) => coach.userId === userId)?.playerCount ?? 0;
  const state = person.isDeactivated ? "The sign-in is closed." : person.hasSignedUp ? `Signed in on ${person.openSessionCount} devices.` : "Invited, not yet here.";
  return (
    <Leaf>
      <Opening title={person.name} sub={`${person.email ?? "No mail address"}. ${state}`} />
      <Entry side="Roles" isHeading isStrong>
        <ul className="plain-list">
          {person.grants.map((grant) => (
            <li key={grant.id} className="bar-line">
              <span>
                <b>{ROLE_WORDS[grant.role]}</b>, {spanWords(grant)}
              </span>
              {grant.isNow && grant.until === null ? (
                <ActButton action={endRole} fields={{ userId, grantId: grant.id }} label={`End the role ${ROLE_WORDS[grant.role]} today`}>
                  End today
                </ActButton>
              ) : null}
            </li>
          ))}
        </ul>
      </Entry>
      {person.grantable.length > 0 ? (
        <Entry side="One more role" isHeading>
          <GrantRoleForm userId={userId} grantable={person.grantable} />
        </Entry>
      ) : null}
      {teaches > 0 ? (
        <Entry side="Players" note={teaches === 1 ? "one player" : `${teaches} players`} isHeading>
          <ReassignForm fromUserId={userId} coaches={coaches.filter((coach) => coach.userId !== userId)} />
        </Entry>
      ) : null}
      <Entry side="Sign-in" isHeading>
        <div className="bar-line">
          {person.isDeactivated ? (
            <ActButton action={reactivate} fields={{ userId }}>Open the sign-in again</ActButton>
          ) : (
            <>
              {person.email ? (
                <ActButton action={inviteAgain} fields={{ userId }}>{person.hasSignedUp ? "Send a link for a new password" : "Send the invitation again"}</ActButton>
              ) : null}
              {person.isMe ? null : (
                <DialogButton
                  text="Close the sign-in"
                  title={`Close the sign-in of ${person.name}?`}
                  safeText="Leave it open"
                  act={<ActButton action={deactivate} fields={{ userId }}>Close it now</ActButton>}
                >
                  <p>Every device is signed out at once. What was written stays. You can open it again later.</p>
                </DialogButton>
              )}
            </>
          )}
        </div>
      </Entry>
    </Leaf>
  );
}
