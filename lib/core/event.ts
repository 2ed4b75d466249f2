import type { z } from "zod";

/**
 * Something that happened and that slow work follows from. It carries identifiers only; whoever acts on it reads the
 * rest anew. Its name is in the past tense: "clips.upload-received".
 */
export interface EventDefinition<P extends Readonly<Record<string, string | number>> = Readonly<Record<string, string | number>>> {
  readonly name: string;
  readonly payload: z.ZodType<P>;
  /** The minutes and hours at which it happens of itself, as a line of cron. */
  readonly every?: string;
}

export function defineEvent<P extends Readonly<Record<string, string | number>>>(name: string, payload: z.ZodType<P>, every?: string): EventDefinition<P> {
  return { name, payload, every };
}
