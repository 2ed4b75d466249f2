import { ability } from "@/lib/access/ability";
import { teaches, type PlayerSubject } from "@/lib/domains/roster/policy";

/** Agrees to a new change of the movement in a season that has none: the head coach, with a reason. */
export const agreeInSeason = ability<PlayerSubject>()("reasoning.agree-in-season", (person, player) => person.role === "head-coach" && teaches(person, player.id));
