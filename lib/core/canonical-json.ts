/**
 * One text per value: JSON with the keys of every object sorted by code unit, no spaces, `undefined` members left out.
 * The same value gives the same text on every machine, whatever order its keys were written in.
 * @throws RangeError for what JSON cannot hold (NaN, infinities, functions, bigint)
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === "boolean" || typeof value === "string") return JSON.stringify(value);
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new RangeError(`${value} has no place in a stored record`);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(",")}]`;
  if (typeof value === "object") {
    const members = Object.entries(value)
      .filter(([, member]) => member !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, member]) => `${JSON.stringify(key)}:${canonicalJson(member)}`);
    return `{${members.join(",")}}`;
  }
  throw new RangeError(`a ${typeof value} has no place in a stored record`);
}

/** True when two values are the same once written down: key order and absent members do not matter. */
export function isSameValue(a: unknown, b: unknown): boolean {
  return canonicalJson(a ?? null) === canonicalJson(b ?? null);
}

/** SHA-256 of the canonical JSON in lower-case hexadecimal (64 characters). Two equal snapshots have equal hashes. */
export async function contentHash(value: unknown): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(canonicalJson(value)));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
