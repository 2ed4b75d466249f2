import { ability, type Subject } from "@/lib/access/ability";
import type { Id } from "@/lib/core/ids";
import { teaches, type PlayerSubject } from "@/lib/domains/roster/policy";
import { workAsked } from "./working-out/events";

/** An order that somebody waits for. */
export interface WorkSubject extends Subject {
  readonly id: Id;
}

/** Calls, rankings and the focus are the coaching side's; office and family read what a coach sends them, and no more. */
export const seeReasoning = ability<PlayerSubject>()("reasoning.see", (person, player) => teaches(person, player.id));
/** Calls what is seen, answers, overrules, chooses the focus. */
export const judgeSwings = ability<PlayerSubject>()("reasoning.judge", (person, player) => teaches(person, player.id));
/** Reads the day's list; which players stand in it is the scope's business. */
export const listCageDay = ability<Subject>()("reasoning.list-cage-day", (person) => person.role === "coach" || person.role === "head-coach");
/** Works an order out, when it is wide or when its guesses are shaken: the worker. */
export const workOutOrders = ability<WorkSubject>()("reasoning.work-out", () => false, [workAsked.name]);
/** Reads how often and why the order was overruled: whoever answers for the library's strengths. */
export const readOverrules = ability<Subject>()("reasoning.read-overrules", (person) => person.role === "head-coach");
