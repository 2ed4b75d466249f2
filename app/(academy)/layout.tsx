import Link from "next/link";
import { redirect } from "next/navigation";
import type { ReactNode } from "react";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";
import { isPerson } from "@/lib/access/actor";
import { getMe } from "@/lib/domains/identity/queries";
import { ROLE_WORDS } from "@/lib/domains/identity/view";
import { RunningHead } from "@/lib/ui/running-head";
import "@/lib/ui/look/coach.css";
import { Thumbs } from "@/lib/ui/thumbs";

const PLACES = [
  { href: "/cage-day", label: "Cage day", also: ["/lesson"] },
  { href: "/players", label: "Players", also: ["/swings"] },
  { href: "/library", label: "Library" },
];

/** Coaches' pages. Whoever is here in another role is sent to that role's own first page. */
export default async function AcademyLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  if (!isPerson(actor) || (actor.role !== "coach" && actor.role !== "head-coach")) redirect(firstPageOf(actor));
  const me = await getMe({});
  return (
    <>
      <RunningHead
        house={{ name: me.academyName, href: "/cage-day" }}
        items={PLACES}
        who={
          <Link href="/account">
            {me.name}, {ROLE_WORDS[me.role]}
          </Link>
        }
      />
      {children}
      <Thumbs items={PLACES} />
    </>
  );
}
