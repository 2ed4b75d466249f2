import { ability, type Subject } from "@/lib/access/ability";
import type { Id } from "@/lib/core/ids";
import { teaches } from "@/lib/domains/roster/policy";
import { isFamily, type ClipOwner } from "../policy";
import { waitingDue } from "./events";

/** A clip that a family sent. */
export interface SentSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
  /** Whether a consent to film for lessons is in force today. */
  readonly isPermitted: boolean;
}

/** Sends a clip to the coach: the player, a guardian. */
export const sendClip = ability<ClipOwner>()("clip.send", (person, owner) => isFamily(person, owner.playerId));
/** Sees what was sent and what became of it: the player, the guardians. Coaches have it in their own list. */
export const seeSentOf = ability<ClipOwner>()("clip.list-sent", (person, owner) => isFamily(person, owner.playerId));
export const seeSent = ability<SentSubject>()("clip.see-sent", (person, sent) => isFamily(person, sent.playerId));
/** Answers a clip: who teaches, while it may be watched. */
export const answerSent = ability<SentSubject>()("clip.answer", (person, sent) => sent.isPermitted && teaches(person, sent.playerId));
/** Sees which clips wait for an answer; of which players is the scope's business. */
export const listWaiting = ability<Subject>()("clip.list-waiting", (person) => person.role === "coach" || person.role === "head-coach");
/** Reminds of a clip that waits: the worker's business. */
export const remindOf = ability<SentSubject>()("clip.remind", () => false, [waitingDue.name]);
