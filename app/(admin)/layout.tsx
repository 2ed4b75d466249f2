import Link from "next/link";
import { redirect } from "next/navigation";
import type { ReactNode } from "react";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";
import { getMe } from "@/lib/domains/identity/queries";
import { ROLE_WORDS } from "@/lib/domains/identity/view";
import { RunningHead } from "@/lib/ui/running-head";
import { Thumbs } from "@/lib/ui/thumbs";

const PLACES = [
  { href: "/roster", label: "Roster", also: ["/hours"] },
  { href: "/people", label: "People" },
  { href: "/incidents", label: "Incidents" },
  { href: "/audit", label: "Audit" },
];

/** The office's pages. Whoever is here in another role is sent to that role's own first page. */
export default async function AdminLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  if (!isPerson(actor) || actor.role !== "admin") redirect(firstPageOf(actor));
  const me = await getMe({});
  return (
    <>
      <RunningHead
        house={{ name: me.academyName, href: "/roster" }}
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
