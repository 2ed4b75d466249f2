import { currentSay, titled } from "@/lib/access/current-say";
import { AskResetForm } from "@/lib/domains/identity/components/password-forms";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Lost password");

export default async function ResetPage() {
  const say = await currentSay();
  return (
    <Leaf>
      <Opening title={say("Lost password")} sub={say("We send a letter with a link. It works once, for two hours.")} />
      <Entry side={say("Where to")} isStrong label={say("Send a link")}>
        <AskResetForm />
      </Entry>
      <Entry side={say("Without mail")}>
        <p>{say("A child who signs in with a user name has no mail here. A parent or guardian sets the new password.")}</p>
      </Entry>
    </Leaf>
  );
}
