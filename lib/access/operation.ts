import type { z } from "zod";
import { InvalidError } from "@/lib/core/errors";
import { english, type Say } from "@/lib/core/words/say";
import type { Actor } from "./actor";

/** What each query, action and route carries about itself, so that the access table can ask it. */
export interface Operation {
  readonly kind: "query" | "action" | "route";
  readonly name: string;
  /** Who may, in words. */
  readonly guard: string;
  /** Whether this actor would be let through with this input; nothing is done. */
  permits(actor: Actor, input: unknown): Promise<boolean>;
}

export function isOperation(value: unknown): value is { readonly operation: Operation } {
  return typeof value === "function" && "operation" in value;
}

/** A text with the character 0 in it, which no database column holds. Nobody types one. */
export function holdsNul(raw: unknown): boolean {
  if (typeof raw === "string") return raw.includes("\0");
  return typeof raw === "object" && raw !== null && Object.values(raw).some(holdsNul);
}

/** Parsed input, or an error that names each field once, in the schema's own words. */
export function parseInput<T>(schema: z.ZodType<T>, raw: unknown, say: Say = english): T {
  if (holdsNul(raw)) throw new InvalidError("There is a character in the text that cannot be kept. Nothing was changed; please type the text anew.");
  const parsed = schema.safeParse(raw);
  if (parsed.success) return parsed.data;
  const fields: Record<string, string> = {};
  for (const issue of parsed.error.issues) fields[String(issue.path[0] ?? "form")] ??= issue.message;
  const first = Object.values(fields)[0] ?? "Something is missing.";
  throw new InvalidError(Object.keys(fields).length > 1 ? say("{count} things are not right yet.", { count: Object.keys(fields).length }) : first, fields);
}
