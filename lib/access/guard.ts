import { NotFoundError, SignInNeededError } from "@/lib/core/errors";
import { database, type Database } from "@/lib/platform/database";
import { authorize, type Ability, type Granted, type Subject } from "./ability";
import { isPerson, type Actor, type Person } from "./actor";

/** The required answer to "who may do this?" of every query, action and route. */
export interface Guard<Input, Allowed, Who extends Actor> {
  readonly words: string;
  check(actor: Actor, input: Input, db: Database): Promise<{ actor: Who; granted: Allowed }>;
}

/** Everybody may, signed in or not, and the reason stands here. */
export function anyone<Input>(why: string): Guard<Input, null, Actor> {
  return { words: `anyone: ${why}`, check: async (actor) => ({ actor, granted: null }) };
}

/** Everybody who is signed in may do this to what is their own (their session, their notices). */
export function signedIn<Input>(why: string): Guard<Input, null, Person> {
  return {
    words: `signed in: ${why}`,
    check: async (actor) => {
      if (!isPerson(actor)) throw new SignInNeededError();
      return { actor, granted: null };
    },
  };
}

/** Those may to whom the ability is allowed on the record that the input names. */
export function may<Input, S extends Subject, Name extends string>(
  asked: Ability<S, Name>,
  load: (input: Input, db: Database, actor: Person) => Promise<S | null>,
): Guard<Input, Granted<S, Name>, Person> {
  return {
    words: asked.name,
    check: async (actor, input, db) => {
      if (!isPerson(actor)) throw new SignInNeededError();
      return { actor, granted: authorize(actor, asked, await load(input, db, actor)) };
    },
  };
}

/** The same guard, whose refusal says what it means for what was typed; strangers and those who were let in a moment ago hear the same. */
export function refusedInWords<Input, Allowed, Who extends Actor>(guard: Guard<Input, Allowed, Who>, words: string): Guard<Input, Allowed, Who> {
  return {
    words: guard.words,
    check: async (actor, input, db) => {
      try {
        return await guard.check(actor, input, db);
      } catch (error) {
        throw error instanceof NotFoundError ? new NotFoundError("page", words) : error;
      }
    },
  };
}

/** Those may to whom the ability is allowed in their own academy; which rows they then see is the scope's business. */
export function mayInAcademy<Input, Name extends string>(asked: Ability<Subject, Name>): Guard<Input, Granted<Subject, Name>, Person> {
  return may(asked, async (_input, _db, actor) => ({ academyId: actor.academyId }));
}

/** Whether the guard lets the actor through; used by the access table, and by pages to know which link to offer; the operation asks again. */
export async function isLetThrough<Input>(guard: Guard<Input, unknown, Actor>, actor: Actor, input: Input): Promise<boolean> {
  try {
    await guard.check(actor, input, database());
    return true;
  } catch (error) {
    if (error instanceof NotFoundError || error instanceof SignInNeededError) return false;
    throw error;
  }
}
