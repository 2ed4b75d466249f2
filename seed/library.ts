import { readFile } from "node:fs/promises";
import path from "node:path";
import { libraryFiles } from "@/lib/domains/library/schema";

/** The starter library's texts in other languages, by the file's name. */
export async function loadTranslations(): Promise<Record<string, unknown>> {
  return { es: JSON.parse(await readFile(path.join(import.meta.dirname, "library", "es.json"), "utf8")) as unknown };
}

/** The files of the starter library by name, as they lie beside this file. */
export async function loadStarterLibrary(): Promise<Record<string, unknown>> {
  const folder = path.join(import.meta.dirname, "library");
  const entries = Object.keys(libraryFiles).map(async (name): Promise<[string, unknown]> => [
    name,
    JSON.parse(await readFile(path.join(folder, `${name}.json`), "utf8")) as unknown,
  ]);
  return Object.fromEntries(await Promise.all(entries));
}
