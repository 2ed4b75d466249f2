import type { z } from "zod";
import { NotFoundError, SignInNeededError } from "@/lib/core/errors";
import { database, type Database } from "@/lib/platform/database";
import type { Actor } from "./actor";
import { isLetThrough, type Guard } from "./guard";
import { holdsNul, parseInput, type Operation } from "./operation";

interface QuerySpec<Raw, Input, Allowed, Who extends Actor, Output> {
  readonly name: string;
  readonly input: z.ZodType<Input, Raw>;
  readonly policy: Guard<NoInfer<Input>, Allowed, Who>;
  run(context: { actor: Who; input: Input; granted: Allowed; db: Database }): Promise<Output>;
}

export interface Query<Raw, Output> {
  /** Asks as the person of the present request; a page shows "not found" or the sign-in when it is refused. */
  (input: Raw): Promise<Output>;
  /** Asks as somebody named (other domains' commands, jobs, tests). */
  as(actor: Actor, input: Raw, db?: Database): Promise<Output>;
  readonly operation: Operation;
}

/** A read. Every export of a domain's queries.ts is made here, so that none can do without a policy. */
export function defineQuery<Raw, Input, Allowed, Who extends Actor, Output>(
  spec: QuerySpec<Raw, Input, Allowed, Who, Output>,
): Query<Raw, Output> {
  const as = async (actor: Actor, raw: Raw, db: Database = database()) => {
    const parsed = spec.input.safeParse(raw);
    // What a person cannot have typed in a form came from a URL: there is no such thing.
    if (!parsed.success || holdsNul(raw)) throw new NotFoundError();
    const passed = await spec.policy.check(actor, parsed.data, db);
    return spec.run({ ...passed, input: parsed.data, db });
  };
  const ask = async (raw: Raw) => {
    const { currentActor } = await import("./current-actor");
    try {
      return await as(await currentActor(), raw);
    } catch (error) {
      return showRefusal(error);
    }
  };
  const operation: Operation = {
    kind: "query",
    name: spec.name,
    guard: spec.policy.words,
    permits: async (actor, raw) => isLetThrough(spec.policy, actor, parseInput(spec.input, raw)),
  };
  return Object.assign(ask, { as, operation });
}

async function showRefusal(error: unknown): Promise<never> {
  const { notFound, redirect } = await import("next/navigation");
  if (error instanceof SignInNeededError) redirect("/sign-in");
  if (error instanceof NotFoundError) notFound();
  throw error;
}
