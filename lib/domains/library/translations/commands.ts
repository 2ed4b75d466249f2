import type { Id } from "@/lib/core/ids";
import type { RecordProblem } from "@/lib/core/record-problem";
import type { Transaction } from "@/lib/platform/database";
import { LibraryRefusedError } from "../commands";
import { problemsOf } from "../schema";
import { readWorkingTables } from "../scope";
import { isPlace } from "./rules";
import { translationsForm } from "./schema";

/**
 * Takes a file of translations (parsed JSON) into an academy's library. What is there for a place is replaced; whether a
 * text is shown is asked when it is read, by the English that it was made from.
 * @returns how many texts stand there now
 * @throws LibraryRefusedError naming every place that the library does not have; nothing is taken then
 */
export async function importTranslations(tx: Transaction, academyId: Id, name: string, file: unknown): Promise<number> {
  const read = translationsForm.safeParse(file);
  if (!read.success) throw new LibraryRefusedError(problemsOf(name, file, read.error));
  const { language, texts } = read.data;
  const library = await readWorkingTables(tx, academyId);
  const unknown = Object.keys(texts).filter((place) => !isPlace(place, library));
  if (unknown.length > 0) {
    throw new LibraryRefusedError(unknown.map((place): RecordProblem => ({ file: name, id: place, field: "", words: "The library has no text of its own at this place." })));
  }
  await tx.libraryText.deleteMany({ where: { academyId, language, place: { in: Object.keys(texts) } } });
  const { count } = await tx.libraryText.createMany({ data: Object.entries(texts).map(([place, { of: englishHash, text }]) => ({ academyId, language, place, englishHash, text })) });
  return count;
}
