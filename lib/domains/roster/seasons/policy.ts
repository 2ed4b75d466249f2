import { ability, type Subject } from "@/lib/access/ability";
import { teaches, type PlayerSubject } from "../policy";

/** Says in which part of the year a player is: the head coach, and a coach who is assigned today. */
export const setSeason = ability<PlayerSubject>()("player.set-season", (person, player) => teaches(person, player.id));
/** Sees and sets the seasons of many players at once: the head coach. */
export const planSeasons = ability<Subject>()("roster.plan-seasons", (person) => person.role === "head-coach");
