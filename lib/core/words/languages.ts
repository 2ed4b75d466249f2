/** The languages a family can read; the first is the one in which coaches write and every text begins. */
export const LANGUAGES = ["en", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

/** What each calls itself. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: "English", es: "Español" };

/** How each writes days and numbers: Spanish as families in the United States do. */
export const LOCALES: Readonly<Record<Language, string>> = { en: "en-GB", es: "es-US" };

export function isLanguage(value: unknown): value is Language {
  return typeof value === "string" && (LANGUAGES as readonly string[]).includes(value);
}

/** The language that was chosen in a browser, or the first of ours that the browser asks for. @param asked the header Accept-Language */
export function browserLanguage(chosen: string | undefined, asked: string | null): Language {
  return isLanguage(chosen) ? chosen : languageAskedFor(asked);
}

/** What a letter to somebody is written in: the own choice, English before there was one. */
export function letterLanguage(chosen: string | null): Language {
  return isLanguage(chosen) ? chosen : LANGUAGES[0];
}

/**
 * The first of our languages that a browser asks for, by its weights; English when it asks for none of them.
 * @param header the header Accept-Language (RFC 9110, 12.5.4)
 */
export function languageAskedFor(header: string | null): Language {
  const asked = (header ?? "").split(",").map((part, place) => {
    const [tag = "", ...parameters] = part.trim().split(";");
    const weight = Number(/^\s*q=([01](?:\.\d{0,3})?)\s*$/.exec(parameters.find((one) => one.includes("q=")) ?? "")?.[1] ?? 1);
    return { language: tag.toLowerCase().split("-")[0], weight, place };
  });
  const ours = asked.filter(({ language, weight }) => isLanguage(language) && weight > 0).sort((a, b) => b.weight - a.weight || a.place - b.place);
  return (ours[0]?.language as Language | undefined) ?? LANGUAGES[0];
}
