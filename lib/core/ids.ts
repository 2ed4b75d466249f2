/** An opaque identifier of one kind of thing: a UUID in lower case. It says nothing about whom it names. */
export type Id = string;

const FORM = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/** True when the text has the form of an identifier; everything else from a URL is "not found", never an error. */
export function isId(text: unknown): text is Id {
  return typeof text === "string" && FORM.test(text);
}

/** A fresh identifier (UUID version 4), random throughout: its order tells nobody who came first. */
export function newId(): Id {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
