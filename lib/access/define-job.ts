import type { EventDefinition } from "@/lib/core/event";
import type { SystemActor } from "./actor";

/** How a job ended: done, or skipped with the reason (its record is gone, it was done before). A throw is tried again. */
export type JobOutcome = { readonly is: "done" } | { readonly is: "skipped"; readonly because: string };

export const DONE: JobOutcome = { is: "done" };
export const skipped = (because: string): JobOutcome => ({ is: "skipped", because });

export interface Job {
  readonly name: string;
  /** When it happens of itself, as a line of cron. */
  readonly every?: string;
  perform(payload: unknown, isLastTry: boolean): Promise<JobOutcome>;
}

/**
 * The work that follows from an event. It is safe to run twice: it reads everything anew and tolerates that what it is
 * about is gone. The actor is the worker, which policies allow things by the event's name.
 */
export function defineJob<P extends Readonly<Record<string, string | number>>>(
  event: EventDefinition<P>,
  run: (context: { payload: P; actor: SystemActor; isLastTry: boolean }) => Promise<JobOutcome>,
): Job {
  return {
    name: event.name,
    every: event.every,
    perform: async (raw, isLastTry) => run({ payload: event.payload.parse(raw), actor: { kind: "system", job: event.name }, isLastTry }),
  };
}
