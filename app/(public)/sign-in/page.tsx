import Link from "next/link";
import { redirect } from "next/navigation";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";
import { SignInForm } from "@/lib/domains/identity/components/sign-in-form";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Sign in" };

export default async function SignInPage({ searchParams }: { searchParams: Promise<{ welcome?: string }> }) {
  const actor = await currentActor();
  if (isPerson(actor)) redirect(firstPageOf(actor));
  const { welcome } = await searchParams;
  return (
    <Leaf>
      <Opening title="Sign in" sub={welcome ? "Your password is kept. Sign in with it now." : "With your mail address, or with the user name that a parent made."} />
      <Entry side="Who are you?" isStrong label="Sign in">
        <SignInForm />
      </Entry>
      <Entry side="No way in?">
        <p>
          Lost the password: <Link href="/reset">ask for a new one</Link>. A child’s password is set by a parent or guardian. Anything else: ask an admin of your
          academy.
        </p>
      </Entry>
    </Leaf>
  );
}
