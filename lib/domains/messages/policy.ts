import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { isGuardianOf, isSelf, teaches, type PlayerSubject } from "@/lib/domains/roster/policy";
import { messagesDue } from "./events";
import type { Part } from "./rules";

/** A message that was not taken back. */
export interface MessageSubject extends Subject {
  readonly id: Id;
  readonly threadId: Id;
  readonly playerId: Id;
  readonly authorId: Id;
  readonly authorPart: Part;
}

const isFamily = (person: Person, playerId: Id) => isSelf(person, playerId) || isGuardianOf(person, playerId);

/** Reads a player's thread as the family does. */
export const readAsFamily = ability<PlayerSubject>()("messages.read-as-family", (person, player) => isFamily(person, player.id));
/** Reads it as coaches do, with what still waits to go. */
export const readAsCoach = ability<PlayerSubject>()("messages.read-as-coach", (person, player) => teaches(person, player.id));
/** Writes into it: coaches assigned today, the head coach, the player, the guardians. The office does not. */
export const writeMessage = ability<PlayerSubject>()("messages.write", (person, player) => teaches(person, player.id) || isFamily(person, player.id));
/** Puts away what the family wrote as needing no answer. */
export const settleThread = ability<PlayerSubject>()("messages.settle", (person, player) => teaches(person, player.id));
/** Takes back what has not gone: the coach who wrote it. */
export const takeBackMessage = ability<MessageSubject>()(
  "messages.take-back",
  (person, message) => message.authorPart === "coach" && message.authorId === person.userId && teaches(person, message.playerId),
);
/** Sees in whose threads somebody waits; in whose is the scope's business. */
export const listUnanswered = ability<Subject>()("messages.list-unanswered", (person) => person.role === "coach" || person.role === "head-coach");
/** Lets go what waited for the hours. */
export const sendDue = ability<MessageSubject>()("messages.send-due", () => false, [messagesDue.name]);
