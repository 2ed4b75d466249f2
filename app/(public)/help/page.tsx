import { currentSay, titled } from "@/lib/access/current-say";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Help");

export default async function HelpPage() {
  const say = await currentSay();
  return (
    <Leaf>
      <Opening title={say("Help")} sub={say("What this is, and who to ask.")} />
      <Entry side={say("What it is")} isStrong isHeading>
        <p>{say("Cagebook is the academy’s shared record of hitting lessons: from a filmed swing to one thing to work on, the drills for it, and whether it changed.")}</p>
      </Entry>
      <Entry side={say("No way in")} isHeading>
        <p>{say("An admin of your academy makes sign-ins and sends invitations. A parent or guardian makes a child’s user name and password.")}</p>
      </Entry>
      <Entry side={say("It hurts")} isHeading>
        <p>{say("Stop swinging and tell an adult. On the player’s page, press “It hurts”: swings are paused and the coach is told. A licensed clinician decides what it is; this book never does.")}</p>
      </Entry>
      <Entry side={say("Who sees what")} isHeading>
        <p>{say("Coaches see the players they teach today; the head coach and the admins see all of the academy’s. A family sees its own children. A consent to film ends after 365 days at the latest, and can be withdrawn on any day.")}</p>
      </Entry>
    </Leaf>
  );
}
