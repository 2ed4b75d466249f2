import { es } from "./es";
import { inBrowser } from "./es/in-browser";
import type { Language } from "./languages";
import { english, sayFrom, type Messages, type Say, type Sentence } from "./say";

/** Every language but English, whole: what one lacks does not compile. */
const CATALOGUE: Readonly<Record<Exclude<Language, "en">, Readonly<Record<Sentence, string>>>> = { es };
const IN_BROWSER: Readonly<Record<Exclude<Language, "en">, Messages>> = { es: inBrowser };

/**
 * The voice of a language, with the whole catalogue. For the server: a browser gets only what its own parts say.
 * @param library the library's own texts that a page shows, in that language, by their English
 */
export function sayIn(language: Language, library: Messages = {}): Say {
  return language === "en" ? english : sayFrom(language, { ...CATALOGUE[language], ...library });
}

/** What the parts that run in a browser say; nothing for English. */
export function browserMessages(language: Language): Messages | null {
  return language === "en" ? null : IN_BROWSER[language];
}
