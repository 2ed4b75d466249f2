import Link from "next/link";
import { redirect } from "next/navigation";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { currentSay, titled } from "@/lib/access/current-say";
import { firstPageOf } from "@/lib/access/first-page";
import { SignInForm } from "@/lib/domains/identity/components/sign-in-form";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const generateMetadata = titled("Sign in");

export default async function SignInPage({ searchParams }: { searchParams: Promise<{ welcome?: string }> }) {
  const actor = await currentActor();
  if (isPerson(actor)) redirect(firstPageOf(actor));
  const say = await currentSay();
  const { welcome } = await searchParams;
  return (
    <Leaf>
      <Opening title={say("Sign in")} sub={welcome ? say("Your password is kept. Sign in with it now.") : say("With your mail address, or with the user name that a parent made.")} />
      <Entry side={say("Who are you?")} isStrong label={say("Sign in")}>
        <SignInForm />
      </Entry>
      <Entry side={say("No way in?")}>
        <p>
          {say("Lost the password:")} <Link href="/reset">{say("ask for a new one")}</Link>. {say("A child’s password is set by a parent or guardian. Anything else: ask an admin of your academy.")}
        </p>
      </Entry>
    </Leaf>
  );
}
