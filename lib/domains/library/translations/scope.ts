import type { Id } from "@/lib/core/ids";
import type { Language } from "@/lib/core/words/languages";
import type { Messages } from "@/lib/core/words/say";
import type { Database } from "@/lib/platform/database";
import { hashOfText } from "./rules";

/**
 * The library's own texts in a language, by their English; nothing for English. What was translated from other words than
 * these is out of date and not among them.
 */
export async function readTranslations(db: Database, academyId: Id, language: Language, texts: readonly string[]): Promise<Messages> {
  if (language === "en" || texts.length === 0) return {};
  const hashes = new Map(await Promise.all([...new Set(texts)].map(async (text): Promise<[string, string]> => [await hashOfText(text), text])));
  const rows = await db.libraryText.findMany({ where: { academyId, language, englishHash: { in: [...hashes.keys()] } }, orderBy: { place: "asc" }, select: { englishHash: true, text: true } });
  return Object.fromEntries(rows.flatMap(({ englishHash, text }) => {
    const english = hashes.get(englishHash);
    return english === undefined ? [] : [[english, text]];
  }));
}
