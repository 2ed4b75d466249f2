import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { isPerson, type Actor, type Person, type SystemActor } from "./actor";

declare const minted: unique symbol;

/** A record together with the proof that the actor may do one named thing to it. Only `authorize` makes one. */
export type Granted<Subject, Name extends string> = Subject & { readonly [minted]: Name };

/** What every subject of a policy says of itself: whose academy it belongs to. */
export interface Subject {
  readonly academyId: Id;
}

/** One named thing that some may do to some records. */
export interface Ability<S extends Subject, Name extends string> {
  readonly name: Name;
  allows(actor: Actor, subject: S): boolean;
}

/**
 * Declares an ability. The rule is asked only for people of the subject's own academy; the worker is allowed what it is
 * allowed by name of its job, in any academy; everybody else is refused.
 */
export function ability<S extends Subject>() {
  return <const Name extends string>(
    name: Name,
    rule: (person: Person, subject: S) => boolean,
    jobs: readonly string[] = [],
  ): Ability<S, Name> => ({
    name,
    allows: (actor, subject) => {
      if (isPerson(actor)) return actor.academyId === subject.academyId && rule(actor, subject);
      return isSystem(actor) && jobs.includes(actor.job);
    },
  });
}

function isSystem(actor: Actor): actor is SystemActor {
  return actor.kind === "system";
}

/**
 * The one door: a record and a refusal are not told apart by those who are refused.
 * @throws NotFoundError when there is no record or the actor may not
 */
export function authorize<S extends Subject, Name extends string>(actor: Actor, asked: Ability<S, Name>, subject: S | null): Granted<S, Name> {
  if (subject === null || !asked.allows(actor, subject)) throw new NotFoundError();
  return subject as Granted<S, Name>;
}

/** The same for a set: every one of those asked for must be allowed, or none is. */
export function authorizeAll<S extends Subject, Name extends string>(
  actor: Actor,
  asked: Ability<S, Name>,
  subjects: readonly S[],
  count: number,
): Granted<S, Name>[] {
  if (subjects.length !== count) throw new NotFoundError();
  return subjects.map((subject) => authorize(actor, asked, subject));
}
