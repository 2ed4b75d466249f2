import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { signedIn } from "@/lib/access/guard";
import type { Messages } from "@/lib/core/words/say";
import { textsForm } from "./schema";
import { readTranslations } from "./scope";

/** The library's own texts in the reader's language, by their English. */
export const getTranslations = defineQuery({
  name: "library.get-translations",
  input: textsForm,
  policy: signedIn<z.infer<typeof textsForm>>("who holds the English of a text of their academy's library may read it in another language"),
  run: async ({ actor, input, db }): Promise<Messages> => readTranslations(db, actor.academyId, actor.language, input.texts),
});
