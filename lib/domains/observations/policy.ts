import { ability, type Subject } from "@/lib/access/ability";
import { teaches, type PlayerSubject } from "@/lib/domains/roster/policy";

/** Calls, rankings and the focus are the coaching side's; office and family read what a coach sends them, and no more. */
export const seeReasoning = ability<PlayerSubject>()("reasoning.see", (person, player) => teaches(person, player.id));
/** Calls what is seen, answers, overrules, chooses the focus. */
export const judgeSwings = ability<PlayerSubject>()("reasoning.judge", (person, player) => teaches(person, player.id));
/** Reads the day's list; which players stand in it is the scope's business. */
export const listCageDay = ability<Subject>()("reasoning.list-cage-day", (person) => person.role === "coach" || person.role === "head-coach");
