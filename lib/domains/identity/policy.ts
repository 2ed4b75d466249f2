import { ability, type Subject } from "@/lib/access/ability";
import type { Id } from "@/lib/core/ids";

/** Somebody with a sign-in. */
export interface UserSubject extends Subject {
  readonly id: Id;
}

/** A player as far as signing in goes. */
export interface ChildSubject extends Subject {
  /** The player's record, not the sign-in. */
  readonly id: Id;
  readonly userId: Id | null;
}

export const managePeople = ability<Subject>()("people.manage", (person) => person.role === "admin");
export const managePerson = ability<UserSubject>()("person.manage", (person) => person.role === "admin");
export const makeChildLogin = ability<ChildSubject>()(
  "child-login.make",
  (person, child) => person.role === "guardian" && person.wardIds.includes(child.id),
);
