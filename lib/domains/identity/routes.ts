import { NextRequest } from "next/server";
import NextAuth, { type NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import { z } from "zod";
import { sessionCookieName } from "@/lib/access/current-actor";
import { LANGUAGE_COOKIE } from "@/lib/access/request-language";
import { defineRoute } from "@/lib/access/define-route";
import { anyone } from "@/lib/access/guard";
import { TooManyError } from "@/lib/core/errors";
import { isId } from "@/lib/core/ids";
import { browserLanguage, type Language } from "@/lib/core/words/languages";
import { log } from "@/lib/platform/log";
import { settings } from "@/lib/platform/settings";
import { signIn } from "./commands";
import { deviceWords, SESSION_DAYS } from "./rules";
import { signInForm } from "./schema";

/** The sender's address: the one that the nearest proxy wrote, which is the last. */
function addressOf(headers: Readonly<Record<string, unknown>>): string {
  return String(headers["x-forwarded-for"] ?? "").split(",").at(-1)?.trim() || "unknown";
}

/** What the sign-in page was read in: the browser's choice, or what it asks for. */
function languageOf(headers: Readonly<Record<string, unknown>>): Language {
  const chosen = String(headers.cookie ?? "").split("; ").find((one) => one.startsWith(`${LANGUAGE_COOKIE}=`))?.slice(LANGUAGE_COOKIE.length + 1);
  return browserLanguage(chosen, String(headers["accept-language"] ?? ""));
}

const maxAge = SESSION_DAYS * 86_400;

function options(): NextAuthOptions {
  const isSecure = settings().APP_URL.startsWith("https:");
  return {
    secret: settings().AUTH_SECRET,
    session: { strategy: "jwt", maxAge },
    pages: { signIn: "/sign-in", error: "/sign-in" },
    useSecureCookies: isSecure,
    cookies: { sessionToken: { name: sessionCookieName(), options: { httpOnly: true, sameSite: "lax", path: "/", secure: isSecure } } },
    providers: [
      CredentialsProvider({
        credentials: { name: { type: "text" }, password: { type: "password" } },
        async authorize(credentials, request) {
          const given = signInForm.safeParse(credentials);
          if (!given.success) throw new Error("wrong");
          const headers = request.headers ?? {};
          const outcome = await signIn({
            ...given.data,
            address: addressOf(headers),
            language: languageOf(headers),
            device: deviceWords(typeof headers["user-agent"] === "string" ? headers["user-agent"] : null),
          }).catch((error: unknown) => {
            if (error instanceof TooManyError) return { refused: "too-many" as const };
            log().error({ err: error }, "a sign-in failed");
            return { refused: "ours" as const };
          });
          if ("refused" in outcome) throw new Error(outcome.refused);
          return { id: outcome.sessionId };
        },
      }),
    ],
    callbacks: {
      // The token names the session's row and nothing else.
      jwt: ({ token, user }) => ({ sid: user ? user.id : isId(token.sid) ? token.sid : undefined }),
      session: ({ session }) => ({ expires: session.expires }),
      redirect: () => settings().APP_URL,
    },
    logger: {
      error: (code) => log().warn({ code }, "signing in"),
      warn: () => undefined,
      debug: () => undefined,
    },
  };
}

const authPath = z.object({ path: z.array(z.string().max(40)).min(1).max(3) });

/** Everything under /api/auth: the credentials' callback and its token against forged forms. */
export const answerAuth = defineRoute({
  name: "identity.answer-auth",
  read: (_request, params) => ({ path: params.nextauth }),
  input: authPath,
  policy: anyone<z.infer<typeof authPath>>("who signs in is not signed in yet"),
  run: async ({ request, input }) => {
    const answer: unknown = await NextAuth(request instanceof NextRequest ? request : new NextRequest(request), { params: Promise.resolve({ nextauth: input.path }) }, options());
    return answer instanceof Response ? answer : new Response(null, { status: 500 });
  },
});
