import { ability } from "@/lib/access/ability";
import { isGuardianOf, isSelf, teaches, type PlayerSubject } from "../policy";

/** Sees and writes down what is swung elsewhere: the coaching side, the player, the guardians. The office has no need to. */
export const countSwings = ability<PlayerSubject>()("player.count-swings", (person, player) => teaches(person, player.id) || isSelf(person, player.id) || isGuardianOf(person, player.id));
/** Says what a usual week brings: a child does not decide it. */
export const saySwingsElsewhere = ability<PlayerSubject>()("player.say-swings-elsewhere", (person, player) => teaches(person, player.id) || isGuardianOf(person, player.id));
