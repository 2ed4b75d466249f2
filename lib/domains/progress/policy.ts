import { ability } from "@/lib/access/ability";
import { isGuardianOf, isSelf, type PlayerSubject } from "@/lib/domains/roster/policy";

/** Sees the own swing then and now, and whether the one thing has changed: the player, a guardian. Coaches have the sheet. */
export const seeOwnSwing = ability<PlayerSubject>()("progress.see-own-swing", (person, player) => isSelf(person, player.id) || isGuardianOf(person, player.id));
