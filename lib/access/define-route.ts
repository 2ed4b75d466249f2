import type { z } from "zod";
import { DomainError, NotFoundError } from "@/lib/core/errors";
import { database, type Database } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import type { Actor } from "./actor";
import { isLetThrough, type Guard } from "./guard";
import { holdsNul, parseInput, type Operation } from "./operation";

type Params = Readonly<Record<string, string | string[] | undefined>>;

interface RouteSpec<Input, Allowed, Who extends Actor> {
  readonly name: string;
  /** Draws the input from the request; what does not fit the schema is "not found". */
  read(request: Request, params: Params): unknown;
  readonly input: z.ZodType<Input>;
  readonly policy: Guard<NoInfer<Input>, Allowed, Who>;
  run(context: { request: Request; params: Params; actor: Who; input: Input; granted: Allowed; db: Database }): Promise<Response>;
}

export interface Route {
  (request: Request, context: { params: Promise<Params> }): Promise<Response>;
  /** Answers as somebody named (tests). */
  as(actor: Actor, request: Request, params: Params): Promise<Response>;
  readonly operation: Operation;
}

/** An address that is not a page: bytes in and out. Every export of a domain's routes.ts is made here. */
export function defineRoute<Input, Allowed, Who extends Actor>(spec: RouteSpec<Input, Allowed, Who>): Route {
  const as = async (actor: Actor, request: Request, params: Params): Promise<Response> => {
    try {
      const raw = spec.read(request, params);
      const parsed = spec.input.safeParse(raw);
      if (!parsed.success || holdsNul(raw)) throw new NotFoundError();
      const db = database();
      const passed = await spec.policy.check(actor, parsed.data, db);
      return await spec.run({ ...passed, request, params, input: parsed.data, db });
    } catch (error) {
      return refusal(spec.name, error);
    }
  };
  const handler = async (request: Request, context: { params: Promise<Params> }) => {
    const { currentActor } = await import("./current-actor");
    return as(await currentActor(), request, await context.params);
  };
  const operation: Operation = {
    kind: "route",
    name: spec.name,
    guard: spec.policy.words,
    permits: async (actor, raw) => isLetThrough(spec.policy, actor, parseInput(spec.input, raw)),
  };
  return Object.assign(handler, { as, operation });
}

function refusal(name: string, error: unknown): Response {
  const headers = { "cache-control": "no-store", "content-type": "text/plain; charset=utf-8" };
  if (error instanceof DomainError) return new Response(error.message, { status: error.status, headers });
  const reference = crypto.randomUUID().slice(0, 8);
  log().error({ operation: name, reference, err: error }, "a route failed");
  return new Response(`Something went wrong on our side. Please try again, or tell an admin the number ${reference}.`, { status: 500, headers });
}
