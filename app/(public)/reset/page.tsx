import { AskResetForm } from "@/lib/domains/identity/components/password-forms";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Lost password" };

export default function ResetPage() {
  return (
    <Leaf>
      <Opening title="Lost password" sub="We send a letter with a link. It works once, for two hours." />
      <Entry side="Where to" isStrong label="Send a link">
        <AskResetForm />
      </Entry>
      <Entry side="Without mail">
        <p>A child who signs in with a user name has no mail here. A parent or guardian sets the new password.</p>
      </Entry>
    </Leaf>
  );
}
