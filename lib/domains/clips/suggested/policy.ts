import { ability, type Subject } from "@/lib/access/ability";
import type { ClipSubject } from "../policy";
import { suggestionsWanted } from "./events";

/** Lets the pose model look at a clip: the worker's business, and only while the consent is in force, which the job asks again. */
export const suggestPoints = ability<ClipSubject>()("clip.suggest-points", () => false, [suggestionsWanted.name]);
/** Sees how far off suggested points were, over all clips of the academy: numbers, nobody's name. */
export const seeSuggestionErrors = ability<Subject>()("suggestions.see-errors", (person) => person.role === "head-coach");
