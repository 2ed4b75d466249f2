import { redirect } from "next/navigation";
import type { ReactNode } from "react";
import { isPerson } from "@/lib/access/actor";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";

/** The portal. Whoever is here in another role is sent to that role's own first page. */
export default async function FamilyLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  if (!isPerson(actor) || (actor.role !== "player" && actor.role !== "guardian")) redirect(firstPageOf(actor));
  return children;
}
