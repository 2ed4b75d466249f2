import { isSameValue } from "./canonical-json";

/** One field of a proposal: what stood there when it was written, and what shall stand there. */
export interface FieldChange {
  readonly was: unknown;
  readonly becomes: unknown;
}

/** A proposal on one record: a change per field, by the field's name. */
export type Patch = Readonly<Record<string, FieldChange>>;

/** Why a field of a patch cannot be applied. */
export interface PatchRefusal {
  readonly field: string;
  readonly kind: "unknown-field" | "conflict" | "no-change";
  readonly words: string;
}

/** The changed record, or every reason why not; the record given is never touched. */
export type PatchOutcome<T> =
  | { readonly isApplied: true; readonly record: T }
  | { readonly isApplied: false; readonly refusals: readonly PatchRefusal[] };

/**
 * Applies a patch to what is in force now. A field outside `patchable` is refused; so is one that has changed since the
 * patch was written and does not already hold the proposed value (a conflict), and one that changes nothing. All
 * fields are applied or none.
 */
export function applyPatch<T extends object>(record: T, patch: Patch, patchable: readonly string[]): PatchOutcome<T> {
  const current = new Map<string, unknown>(Object.entries(record));
  const refusals: PatchRefusal[] = [];
  const changes: [string, unknown][] = [];
  for (const [field, change] of Object.entries(patch)) {
    const now = current.get(field);
    if (!patchable.includes(field)) {
      refusals.push({ field, kind: "unknown-field", words: `"${field}" cannot be changed by a proposal.` });
    } else if (isSameValue(change.was, change.becomes)) {
      refusals.push({ field, kind: "no-change", words: `"${field}" would stay as it is.` });
    } else if (!isSameValue(now, change.was) && !isSameValue(now, change.becomes)) {
      const words = `"${field}" has changed since this proposal was written. Compare it with what is in force and propose again.`;
      refusals.push({ field, kind: "conflict", words });
    } else {
      changes.push([field, change.becomes]);
    }
  }
  if (Object.keys(patch).length === 0) refusals.push({ field: "", kind: "no-change", words: "The proposal changes nothing." });
  if (refusals.length > 0) return { isApplied: false, refusals };
  return { isApplied: true, record: { ...record, ...Object.fromEntries(changes) } };
}
