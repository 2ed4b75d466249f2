import { cache } from "react";
import { cookies, headers } from "next/headers";
import { browserLanguage, type Language } from "@/lib/core/words/languages";

/** Keeps the language that was chosen in this browser, for the pages before the sign-in. */
export const LANGUAGE_COOKIE = "cagebook.language";

/** The language chosen in this browser, or the first of ours that the browser asks for. */
export const languageOfRequest: () => Promise<Language> = cache(async () => {
  return browserLanguage((await cookies()).get(LANGUAGE_COOKIE)?.value, (await headers()).get("accept-language"));
});
