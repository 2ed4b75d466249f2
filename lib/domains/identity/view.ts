import type { Role } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import type { StaffRole } from "./rules";

/** Roles as people say them. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  admin: "admin",
  "head-coach": "head coach",
  coach: "coach",
  player: "player",
  guardian: "parent or guardian",
};

/** Who is signed in, for the head of a page. */
export interface MeView {
  readonly name: string;
  readonly academyName: string;
  readonly role: Role;
  readonly roles: readonly Role[];
  readonly signInName: string;
}

export interface SessionView {
  readonly id: Id;
  readonly device: string;
  readonly since: string;
  readonly isThisOne: boolean;
}

/** What a link from a letter opens, before anybody has signed in. */
export type LinkView =
  | { readonly is: "open"; readonly purpose: "invitation" | "reset"; readonly name: string; readonly academyName: string; readonly signInName: string }
  | { readonly is: "gone" };

export interface ChildLoginView {
  readonly playerId: Id;
  readonly givenName: string;
  readonly userName: string | null;
  /** The player signs in by mail: the login is the player's own. */
  readonly hasOwnMail: boolean;
}

export interface RoleView {
  readonly id: Id;
  readonly role: Role;
  readonly from: string;
  readonly until: string | null;
  readonly isNow: boolean;
}

export interface PersonRow {
  readonly id: Id;
  readonly name: string;
  readonly email: string | null;
  readonly roles: readonly Role[];
  readonly hasSignedUp: boolean;
  readonly isDeactivated: boolean;
}

export interface PersonView extends PersonRow {
  readonly grants: readonly RoleView[];
  readonly grantable: readonly StaffRole[];
  readonly isMe: boolean;
  readonly openSessionCount: number;
}

/** A letter that was kept because there is no mail server. */
export interface LetterView {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  readonly at: string;
  /** The address in the letter, if it has one. */
  readonly link: string | null;
}

/** The day of an instant as people say it, in their time zone. */
export function dayWords(instant: Date, timeZone: string): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone }).format(instant);
}
