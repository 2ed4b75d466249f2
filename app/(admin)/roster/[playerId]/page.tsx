import Link from "next/link";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { endAssignment, endComplaint, endGuardianship, leaveAcademy, takeBack } from "@/lib/domains/roster/actions";
import { ConsentForm } from "@/lib/domains/roster/components/consent-form";
import { ConsentTable } from "@/lib/domains/roster/components/consent-table";
import { ComplaintForm } from "@/lib/domains/roster/components/health-forms";
import { IncidentForm } from "@/lib/domains/roster/components/incident-form";
import { HomeFacts } from "@/lib/domains/roster/components/home-facts";
import { AddGuardianForm, AssignCoachForm, InvitePlayerForm } from "@/lib/domains/roster/components/people-forms";
import { EditPlayerForm } from "@/lib/domains/roster/components/player-form";
import { SpanList } from "@/lib/domains/roster/components/span-list";
import { dayWords, partWords } from "@/lib/domains/roster/components/words";
import { getPlayerFacts, getPlayerRecord, listCoaches } from "@/lib/domains/roster/queries";
import { DialogButton } from "@/lib/ui/dialog";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata = { title: "Player" };

export default async function PlayerRecordPage({ params }: { params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const [record, coaches] = await Promise.all([getPlayerRecord({ playerId }), listCoaches({})]);
  const { today } = await getPlayerFacts({ playerId });
  const { player } = record;
  const guardiansNow = record.guardians.filter((guardian) => guardian.isNow);
  return (
    <Leaf>
      <Opening
        title={player.name}
        sub={`${player.ageYears} years old, ${player.sport}, trains at ${player.locationName}.${player.hasLeft ? " Has left the academy." : ""}`}
      />
      {player.isPaused ? <Problem happened="Swings are paused." kept="The plan is kept." todo="Coach and family clear it between them; where it hurts is theirs to know." /> : null}
      <Entry side="Guardians" isHeading isStrong note={player.isMinor && guardiansNow.length === 0 ? "A minor needs one" : undefined}>
        <SpanList
          spans={record.guardians}
          empty="No guardian yet."
          more={(guardian) => `${guardian.relation}, ${guardian.email ?? "no mail"}${guardian.hasSignedUp ? "" : ", invited, not yet here"}`}
          act={(guardian) => (
            <ActButton action={endGuardianship} fields={{ playerId, guardianshipId: guardian.id }} label={`End today: ${guardian.name}`}>
              End today
            </ActButton>
          )}
        />
        <AddGuardianForm playerId={playerId} />
      </Entry>
      <Entry side="Consents" isHeading isStrong note="365 days at the most">
        <ConsentTable playerId={playerId} consents={record.consents} />
        {player.hasLeft ? null : <ConsentForm playerId={playerId} guardians={guardiansNow} />}
      </Entry>
      <Entry side="Coaches" isHeading isStrong>
        <SpanList
          spans={record.coaches}
          empty="No coach yet: only the head coach sees this player’s lessons."
          act={(coach) => (
            <ActButton action={endAssignment} fields={{ playerId, assignmentId: coach.id }} label={`End today: ${coach.name}`}>
              End today
            </ActButton>
          )}
        />
        {player.hasLeft ? null : <AssignCoachForm playerId={playerId} coaches={coaches} />}
      </Entry>
      <Entry side="Complaints" isHeading isStrong note="Parts to spare">
        <ul className="plain-list">
          {record.complaints.map((complaint) => (
            <li key={complaint.id} className="bar-line">
              <span>
                {partWords(complaint.part)}, since {dayWords(complaint.since)}
              </span>
              <ActButton action={endComplaint} fields={{ playerId, complaintId: complaint.id }} label={`It is over: ${partWords(complaint.part)}`}>
                It is over
              </ActButton>
            </li>
          ))}
        </ul>
        {player.hasLeft ? null : <ComplaintForm playerId={playerId} />}
      </Entry>
      {player.hasLeft ? null : (
        <Entry side="Incident note" isHeading isStrong note="Hit, pain, blow to the head">
          <details>
            <summary className="btn plain">Note an incident</summary>
            <IncidentForm playerId={playerId} today={today} />
          </details>
          <p>
            <Link className="btn plain" href="/incidents">
              All incident notes
            </Link>
          </p>
        </Entry>
      )}
      <Entry side="At home" isHeading isStrong>
        <HomeFacts home={record.home} />
        <p>
          <Link href={`/roster/${playerId}/home`}>{record.home ? "Change what is at home" : "Say what is at home"}</Link>
        </p>
      </Entry>
      <Entry side="Sign-in" isHeading isStrong>
        {record.login ? <p>{record.login.email ? `Signs in by mail: ${record.login.email}.` : `Signs in with the user name ${record.login.userName}, which a guardian made.`}</p> : null}
        {!record.login && player.isMinor ? <p>None yet. A guardian makes a user name for a minor.</p> : null}
        {!record.login && !player.isMinor && !player.hasLeft ? <InvitePlayerForm playerId={playerId} /> : null}
      </Entry>
      <Entry side="The player" isHeading isStrong>
        <EditPlayerForm record={record} />
      </Entry>
      <Entry side="Leaving" isHeading isStrong>
        {player.hasLeft ? (
          <ActButton action={takeBack} fields={{ playerId }}>Take the player back</ActButton>
        ) : (
          <DialogButton
            text="The player leaves"
            title={`Does ${player.givenName} leave the academy?`}
            safeText="No, stay"
            act={<ActButton action={leaveAcademy} fields={{ playerId }}>Yes, leave today</ActButton>}
          >
            <p>Coaches lose the player today. The record and its clips are kept. You can take the player back later; coaches are then assigned anew.</p>
          </DialogButton>
        )}
      </Entry>
    </Leaf>
  );
}
