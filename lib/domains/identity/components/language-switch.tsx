"use client";

import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { LANGUAGE_NAMES, LANGUAGES } from "@/lib/core/words/languages";
import { useSay } from "@/lib/ui/words/use-say";
import { chooseLanguage } from "../actions";

/** The other languages these pages can be read in, each by its own name. Works without scripts too. */
export function LanguageSwitch() {
  const say = useSay();
  const [, choose] = useActionState(chooseLanguage, IDLE);
  return (
    <form action={choose} className="languages" aria-label={say("Language")}>
      {LANGUAGES.filter((language) => language !== say.language).map((language, place) => (
        // The place is the key: the pressed button stays, and whoever goes by key stays on it.
        <button key={place} type="submit" name="language" value={language} lang={language}>
          {LANGUAGE_NAMES[language]}
        </button>
      ))}
    </form>
  );
}
