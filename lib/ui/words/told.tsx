import type { Say } from "@/lib/core/words/say";

/** A text of the library in the page's language; in English, and marked so, where it has no translation. */
export function Told({ say, text, isQuoted = false }: { say: Say; text: string; isQuoted?: boolean }) {
  const lang = say.langOf(text);
  const words = isQuoted ? `“${say.told(text)}”` : say.told(text);
  return lang ? <span lang={lang}>{words}</span> : words;
}
