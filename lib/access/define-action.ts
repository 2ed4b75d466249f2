import type { z } from "zod";
import type { ActionState } from "@/lib/core/action-state";
import { DomainError, InvalidError, OvertakenError } from "@/lib/core/errors";
import { sayIn } from "@/lib/core/words/catalogue";
import { english, type Say } from "@/lib/core/words/say";
import { inTransaction, type Transaction } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { settings } from "@/lib/platform/settings";
import { isPerson, type Actor } from "./actor";
import { writeAudit } from "./audit";
import { formObject, typedValues } from "./form-object";
import { isLetThrough, type Guard } from "./guard";
import { parseInput, type Operation } from "./operation";

/** What an action tells the page. */
export interface ActionOutcome {
  readonly message?: string;
  readonly data?: unknown;
  readonly redirectTo?: string;
  /** Kept in the browser for a year. */
  readonly cookie?: { readonly name: string; readonly value: string };
}

interface ActionSpec<Raw, Input, Allowed, Who extends Actor> {
  readonly name: string;
  readonly input: z.ZodType<Input, Raw>;
  readonly policy: Guard<NoInfer<Input>, Allowed, Who>;
  run(context: { actor: Who; input: Input; granted: Allowed; tx: Transaction }): Promise<ActionOutcome | void>;
}

export interface Action<Raw> {
  /** From a script of the page. */
  (input: Raw): Promise<ActionState>;
  /** As a form's action. It stands last, since that is the one that React's form hooks see. */
  (previous: ActionState, form: FormData): Promise<ActionState>;
  /** As somebody named; refusals are thrown. */
  as(actor: Actor, input: Raw): Promise<ActionOutcome>;
  readonly operation: Operation;
}

/**
 * A write: one transaction in which the check, the change and the audit row happen together. Every export of a
 * domain's actions.ts is made here.
 */
export function defineAction<Raw, Input, Allowed, Who extends Actor>(spec: ActionSpec<Raw, Input, Allowed, Who>): Action<Raw> {
  const perform = async (actor: Actor, input: Input): Promise<ActionOutcome> =>
    inTransaction(async (tx) => {
      const passed = await spec.policy.check(actor, input, tx);
      const outcome = (await spec.run({ ...passed, input, tx })) ?? {};
      if (isPerson(actor)) await writeAudit(tx, actor, spec.name, actor.academyId, idOf(passed.granted));
      return outcome;
    });

  const act = async (first: ActionState | Raw, form?: FormData): Promise<ActionState> => {
    const [{ currentActor }, { languageOfRequest }] = await Promise.all([import("./current-actor"), import("./request-language")]);
    let outcome: ActionOutcome;
    let say = english;
    try {
      const raw = form instanceof FormData ? formObject(form) : first;
      const actor = await currentActor();
      say = sayIn(isPerson(actor) ? actor.language : await languageOfRequest());
      outcome = await perform(actor, parseInput(spec.input, raw, say));
    } catch (error) {
      return refusal(spec.name, error, form, say);
    }
    await showOutcome(outcome);
    return { status: "done", message: outcome.message && say.told(outcome.message), data: outcome.data };
  };

  const operation: Operation = {
    kind: "action",
    name: spec.name,
    guard: spec.policy.words,
    permits: async (actor, raw) => isLetThrough(spec.policy, actor, parseInput(spec.input, raw)),
  };
  const as = async (actor: Actor, raw: Raw) => perform(actor, parseInput(spec.input, raw));
  return Object.assign(act, { as, operation });
}

const YEAR_S = 365 * 86_400;

async function showOutcome(outcome: ActionOutcome): Promise<void> {
  const { revalidatePath } = await import("next/cache");
  if (outcome.cookie) {
    const { cookies } = await import("next/headers");
    const isSecure = settings().APP_URL.startsWith("https:");
    (await cookies()).set(outcome.cookie.name, outcome.cookie.value, { maxAge: YEAR_S, httpOnly: true, sameSite: "lax", path: "/", secure: isSecure });
  }
  revalidatePath("/", "layout");
  if (!outcome.redirectTo) return;
  const { redirect } = await import("next/navigation");
  redirect(outcome.redirectTo);
}

function refusal(name: string, error: unknown, form: FormData | undefined, say: Say): ActionState {
  const values = form ? typedValues(form) : {};
  if (error instanceof DomainError) {
    const fields = error instanceof InvalidError ? Object.fromEntries(Object.entries(error.fields).map(([name, words]) => [name, say.told(words)])) : {};
    return { status: "refused", message: say.told(error.message), fields, values, ...(error instanceof OvertakenError ? { isOvertaken: true } : {}) };
  }
  const reference = crypto.randomUUID().slice(0, 8);
  log().error({ operation: name, reference, err: error }, "an action failed");
  return {
    status: "refused",
    message: say("Something went wrong on our side. Nothing was changed. Please try again, or tell an admin the number {reference}.", { reference }),
    fields: {},
    values,
  };
}

function idOf(granted: unknown): string | null {
  return typeof granted === "object" && granted !== null && "id" in granted && typeof granted.id === "string" ? granted.id : null;
}

