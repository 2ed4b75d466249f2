import type { Id } from "@/lib/core/ids";
import type { Language } from "@/lib/core/words/languages";

export const ROLES = ["admin", "head-coach", "coach", "player", "guardian"] as const;
export type Role = (typeof ROLES)[number];

/** A signed-in person in the one role that is active now. What a role may do is said in the policies. */
export interface Person {
  readonly kind: "person";
  readonly sessionId: Id;
  readonly userId: Id;
  readonly academyId: Id;
  readonly name: string;
  readonly role: Role;
  /** What the pages are read in: the own choice of players and guardians; pages of the academy are in English. */
  readonly language: Language;
  /** Every role that holds today; the active one is among them. */
  readonly roles: readonly Role[];
  /** Today in the academy's time zone, YYYY-MM-DD: the day on which dates are judged. */
  readonly today: string;
  readonly timeZone: string;
  /** The player record of this person, if any. */
  readonly ownPlayerId: Id | null;
  /** Players whose guardian this person is today. */
  readonly wardIds: readonly Id[];
  /** Players whom this person coaches today. */
  readonly coachedPlayerIds: readonly Id[];
}

/** Somebody who has not signed in. */
export interface Nobody {
  readonly kind: "nobody";
}

/** The worker doing a job. It acts in every academy and may do only what a policy allows it by name. */
export interface SystemActor {
  readonly kind: "system";
  readonly job: string;
}

export type Actor = Person | Nobody | SystemActor;

export const NOBODY: Nobody = { kind: "nobody" };

export function isPerson(actor: Actor): actor is Person {
  return actor.kind === "person";
}
