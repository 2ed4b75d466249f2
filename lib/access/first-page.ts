import { isPerson, type Actor, type Role } from "./actor";

const FIRST_PAGE: Record<Role, string> = {
  admin: "/roster",
  "head-coach": "/cage-day",
  coach: "/cage-day",
  player: "/today",
  guardian: "/today",
};

/** Where somebody starts: the first page of the role that is active, or the sign-in. */
export function firstPageOf(actor: Actor): string {
  return isPerson(actor) ? FIRST_PAGE[actor.role] : "/sign-in";
}
