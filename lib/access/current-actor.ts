import { cache } from "react";
import { decode } from "next-auth/jwt";
import { cookies } from "next/headers";
import { isId } from "@/lib/core/ids";
import { settings } from "@/lib/platform/settings";
import { NOBODY, type Actor } from "./actor";
import { languageOfRequest } from "./request-language";
import { findActor } from "./session";

/** Name of the cookie that holds the signed token; over https it is bound to this host. */
export function sessionCookieName(): string {
  return settings().APP_URL.startsWith("https:") ? "__Secure-cagebook.session" : "cagebook.session";
}

/** Who is asking, read once per request. The token names a session and nothing else. */
export const currentActor: () => Promise<Actor> = cache(async () => {
  const token = (await cookies()).get(sessionCookieName())?.value;
  if (!token) return NOBODY;
  const decoded = await decode({ token, secret: settings().AUTH_SECRET }).catch(() => null);
  return isId(decoded?.sid) ? findActor(decoded.sid, undefined, await languageOfRequest()) : NOBODY;
});
