import { importLibrary } from "@/lib/domains/library/commands";
import { importTranslations } from "@/lib/domains/library/translations/commands";
import type { Id } from "@/lib/core/ids";
import { database, inTransaction } from "@/lib/platform/database";
import { loadStarterLibrary, loadTranslations } from "@/seed/library";

/** Gives an academy the starter library as its first edition; its other languages come apart from it. */
export async function buildLibrary(academyId: Id) {
  const files = await loadStarterLibrary();
  return inTransaction((tx) => importLibrary(tx, academyId, files, { approvedById: null }));
}

/** The other languages of the library, each once: what an academy says anew later stays. */
export async function buildTranslations(academyId: Id): Promise<void> {
  for (const [language, file] of Object.entries(await loadTranslations())) {
    if ((await database().libraryText.count({ where: { academyId, language } })) > 0) continue;
    await inTransaction((tx) => importTranslations(tx, academyId, language, file));
  }
}
