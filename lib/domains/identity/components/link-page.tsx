import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";
import type { LinkView } from "../view";
import { AcceptLinkForm } from "./password-forms";

/** What a link from a letter opens: the choice of a password, or the sentence that it is over. */
export function LinkPage({ link, secret }: { link: LinkView; secret: string }) {
  if (link.is === "gone") {
    return (
      <Leaf>
        <Problem
          level="h1"
          happened="This link was used already or is too old."
          kept="Nothing was changed."
          todo="Ask for a new one. For an invitation, ask an admin of your academy."
          action={<ButtonLink href="/reset" kind="main">Ask for a new link</ButtonLink>}
        />
      </Leaf>
    );
  }
  const isInvitation = link.purpose === "invitation";
  return (
    <Leaf>
      <Opening
        title={isInvitation ? `Welcome to ${link.academyName}` : "A new password"}
        sub={`${link.name}, you will sign in as ${link.signInName}.`}
      />
      <Entry side="Your password" isStrong label="Choose a password">
        <AcceptLinkForm secret={secret} signInName={link.signInName} />
        {isInvitation ? null : <p>Every device that is signed in now will have to sign in again.</p>}
      </Entry>
    </Leaf>
  );
}
