import Link from "next/link";
import type { ReactNode } from "react";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { currentSay } from "@/lib/access/current-say";
import { LanguageSwitch } from "@/lib/domains/identity/components/language-switch";
import { firstPageOf } from "@/lib/access/first-page";
import { RunningHead } from "@/lib/ui/running-head";
import { Thumbs } from "@/lib/ui/thumbs";

/** Pages that everybody can open, signed in or not. */
export default async function PublicLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  const say = await currentSay();
  const isOfFamily = !isPerson(actor) || actor.role === "player" || actor.role === "guardian";
  const items = [
    isPerson(actor) ? { href: firstPageOf(actor), label: say("My first page") } : { href: "/sign-in", label: say("Sign in"), also: ["/reset", "/invitation"] },
    { href: "/help", label: say("Help") },
  ];
  return (
    <>
      <RunningHead
        house={{ name: "Cagebook", href: "/" }}
        items={items}
        say={say}
        who={
          <>
            {isOfFamily ? <LanguageSwitch /> : null}
            {isPerson(actor) ? <Link href="/account">{actor.name}</Link> : null}
          </>
        }
      />
      {children}
      <Thumbs items={items} say={say} />
    </>
  );
}
