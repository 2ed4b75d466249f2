import type { Say } from "@/lib/core/words/say";
import { ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";
import type { LinkView } from "../view";
import { AcceptLinkForm } from "./password-forms";

/** What a link from a letter opens: the choice of a password, or the sentence that it is over. */
export function LinkPage({ link, secret, say }: { link: LinkView; secret: string; say: Say }) {
  if (link.is === "gone") {
    return (
      <Leaf>
        <Problem
          level="h1"
          happened={say("This link was used already or is too old.")}
          kept={say("Nothing was changed.")}
          todo={say("Ask for a new one. For an invitation, ask an admin of your academy.")}
          action={<ButtonLink href="/reset" kind="main">{say("Ask for a new link")}</ButtonLink>}
        />
      </Leaf>
    );
  }
  const isInvitation = link.purpose === "invitation";
  return (
    <Leaf>
      <Opening
        title={isInvitation ? say("Welcome to {academy}", { academy: link.academyName }) : say("A new password")}
        sub={say("{name}, you will sign in as {signInName}.", { name: link.name, signInName: link.signInName })}
      />
      <Entry side={say("Your password")} isStrong label={say("Choose a password")}>
        <AcceptLinkForm secret={secret} signInName={link.signInName} />
        {isInvitation ? null : <p>{say("Every device that is signed in now will have to sign in again.")}</p>}
      </Entry>
    </Leaf>
  );
}
