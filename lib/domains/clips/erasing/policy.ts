import { ability } from "@/lib/access/ability";
import { teaches } from "@/lib/domains/roster/policy";
import type { ClipSubject } from "../policy";

/** Erases a clip: who teaches, also when the consent to show it has ended. */
export const eraseClipOf = ability<ClipSubject>()("clip.erase", (person, clip) => teaches(person, clip.playerId));
