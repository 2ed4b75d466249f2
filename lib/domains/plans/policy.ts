import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { isGuardianOf, isSelf, teaches, type PlayerSubject } from "@/lib/domains/roster/policy";

/** A plan of a player's side, with its note. */
export interface PlanSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
}

/** The note of a plan; until it is sent it is a draft. */
export interface NoteSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
  readonly isSent: boolean;
}

/** Whom a sent note is for, and who may know of it: the coaching side, the player, the guardians. The office has no need to. */
const isForThem = (person: Person, playerId: Id) => teaches(person, playerId) || isSelf(person, playerId) || isGuardianOf(person, playerId);

/** Begins plans for a player and sees what is being drafted. */
export const planFor = ability<PlayerSubject>()("plan.draft", (person, player) => teaches(person, player.id));
/** Changes a draft, writes its note in both parts, sends it. */
export const writePlan = ability<PlanSubject>()("plan.write", (person, plan) => teaches(person, plan.playerId));
/** Reads a note with what only coaches see. */
export const seeWholeNote = ability<NoteSubject>()("note.see-whole", (person, note) => teaches(person, note.playerId));
/** Reads a note as the family gets it, once it was sent. */
export const seeSentNote = ability<NoteSubject>()("note.see-sent", (person, note) => note.isSent && isForThem(person, note.playerId));
/** Reads the plans and notes that were sent for a player. */
export const seeSentPlans = ability<PlayerSubject>()("plan.see-sent", (person, player) => isForThem(person, player.id));
/** Reads what many players have to do; which of them is the scope's business. */
export const listHomework = ability<Subject>()("plan.list-homework", (person) => person.role === "coach" || person.role === "head-coach");
