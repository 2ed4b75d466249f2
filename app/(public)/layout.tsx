import Link from "next/link";
import type { ReactNode } from "react";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";
import { RunningHead } from "@/lib/ui/running-head";
import { Thumbs } from "@/lib/ui/thumbs";

/** Pages that everybody can open, signed in or not. */
export default async function PublicLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  const items = [
    isPerson(actor) ? { href: firstPageOf(actor), label: "My first page" } : { href: "/sign-in", label: "Sign in", also: ["/reset", "/invitation"] },
    { href: "/help", label: "Help" },
  ];
  return (
    <>
      <RunningHead house={{ name: "Cagebook", href: "/" }} items={items} who={isPerson(actor) ? <Link href="/account">{actor.name}</Link> : undefined} />
      {children}
      <Thumbs items={items} />
    </>
  );
}
