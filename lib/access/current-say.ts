import { cache } from "react";
import { sayIn } from "@/lib/core/words/catalogue";
import type { Language } from "@/lib/core/words/languages";
import type { Messages, PlainSentence, Say } from "@/lib/core/words/say";
import { isPerson } from "./actor";
import { currentActor } from "./current-actor";
import { languageOfRequest } from "./request-language";

/** The language of the present page: the own choice of who is signed in, before that the browser's. */
export const currentLanguage: () => Promise<Language> = cache(async () => {
  const actor = await currentActor();
  return isPerson(actor) ? actor.language : languageOfRequest();
});

/**
 * The voice of the present page.
 * @param library the library's own texts that it shows, by their English
 */
export async function currentSay(library?: Messages): Promise<Say> {
  return sayIn(await currentLanguage(), library);
}

/** A page's title in its reader's language. */
export function titled(text: PlainSentence): () => Promise<{ title: string }> {
  return async () => ({ title: (await currentSay())(text) });
}
