import { redirect } from "next/navigation";
import { currentActor } from "@/lib/access/current-actor";
import { firstPageOf } from "@/lib/access/first-page";

/** The house's door: everybody is sent to the first page of the role that is active. */
export default async function Door() {
  redirect(firstPageOf(await currentActor()));
}
