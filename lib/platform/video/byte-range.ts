/** The bytes that a request asks for, both ends included. */
export interface ByteRange {
  readonly start: number;
  readonly end: number;
}

/**
 * Reads a Range header (RFC 9110, 14.2) against a length. One range only; what asks for several, or is not understood, is
 * answered with the whole. @returns null for the whole, "none" when the range lies outside
 */
export function byteRangeOf(header: string | null, length: number): ByteRange | "none" | null {
  const asked = /^bytes=(\d*)-(\d*)$/.exec(header ?? "");
  if (!asked) return null;
  const [, from = "", to = ""] = asked;
  if (from === "" && to === "") return null;
  if (from === "") {
    const last = Math.min(Number(to), length);
    return last === 0 ? "none" : { start: length - last, end: length - 1 };
  }
  const start = Number(from);
  if (to !== "" && Number(to) < start) return null;
  return start >= length ? "none" : { start, end: Math.min(to === "" ? length - 1 : Number(to), length - 1) };
}
