import type { PlainSentence } from "@/lib/core/words/say";

export const PASSWORD_LEAST = 10;
const PASSWORD_MOST = 200;
export const SESSION_DAYS = 30;
export const INVITATION_DAYS = 14;
export const RESET_HOURS = 2;

/** Roles that the office gives by hand; player and guardian come with a player of the roster. */
export const STAFF_ROLES = ["coach", "head-coach", "admin"] as const;
export type StaffRole = (typeof STAFF_ROLES)[number];
export const STAFF_ROLE_WORDS: Readonly<Record<StaffRole, string>> = { coach: "coach", "head-coach": "head coach", admin: "admin" };

/** Why this cannot be the password of somebody with these names, as a sentence; null when it can. */
export function passwordProblem(password: string, names: readonly (string | null)[]): PlainSentence | null {
  if (password.length < PASSWORD_LEAST) return `A password has at least ${PASSWORD_LEAST} characters. Three words in a row are fine.` as const;
  if (password.length > PASSWORD_MOST) return `A password has at most ${PASSWORD_MOST} characters.` as const;
  const plain = (text: string) => text.toLowerCase().replace(/\s+/g, "");
  if (names.some((name) => name !== null && plain(name) === plain(password))) return "The password may not be the name itself.";
  return null;
}

/** The role a new session begins in: the one used last if it is still held, else the first that is; null when none is. */
export function roleToBeginIn<Role extends string>(held: readonly Role[], last: string | null): Role | null {
  return held.find((role) => role === last) ?? held[0] ?? null;
}

const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/iPhone/, "an iPhone"],
  [/iPad/, "an iPad"],
  [/Android.*Mobile/, "an Android phone"],
  [/Android/, "an Android tablet"],
  [/Windows/, "a Windows computer"],
  [/Macintosh/, "a Mac"],
  [/CrOS/, "a Chromebook"],
  [/Linux/, "a Linux computer"],
];
const BROWSERS: readonly (readonly [RegExp, string])[] = [
  [/Edg\//, "Edge"],
  [/Firefox\/|FxiOS/, "Firefox"],
  [/Chrome\/|CriOS/, "Chrome"],
  [/Safari\//, "Safari"],
];

/** A device in plain words from what its browser says of itself; never stored as it was sent. */
export function deviceWords(userAgent: string | null): string {
  const agent = userAgent ?? "";
  const system = SYSTEMS.find(([form]) => form.test(agent))?.[1] ?? "an unknown device";
  const browser = BROWSERS.find(([form]) => form.test(agent))?.[1];
  return browser ? `${browser} on ${system}` : system;
}
