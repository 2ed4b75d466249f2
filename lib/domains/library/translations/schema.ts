import { z } from "zod";
import { LANGUAGES } from "@/lib/core/words/languages";

/** A text of the library in another language, with the hash of the English that it says. */
const translationForm = z.strictObject({
  of: z.string("There is no hash of the English here").regex(/^[0-9a-f]{12}$/, "The hash of the English has twelve digits"),
  text: z.string("There is no text here").trim().min(1, "The text is empty").max(2000, "The text is too long"),
});

/** A file of translations: what stands at which place of the library, such as `drills/mirror-load/steps/0`. */
export const translationsForm = z.strictObject({
  schema: z.literal(1),
  about: z.string(),
  language: z.enum(LANGUAGES).exclude(["en"]),
  texts: z.record(z.string(), translationForm),
});
export type TranslationsFile = z.infer<typeof translationsForm>;

/** The English texts that a page is about to show. */
export const textsForm = z.object({ texts: z.array(z.string().max(4000)).max(800).readonly() });
