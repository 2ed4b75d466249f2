import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { clipErased } from "@/lib/domains/clips/erasing/events";
import { isGuardianOf, isSelf, teaches, type PlayerSubject } from "@/lib/domains/roster/policy";
import { bytesDropped, filmAsked, openingWanted } from "./events";

/** A walkthrough as the rules below need to know one. */
export interface WalkthroughSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
  readonly isSent: boolean;
  /** Whether a consent to film for lessons is in force today. Without one nothing is heard or seen of it, its words stay. */
  readonly isPermitted: boolean;
}

/** One recording of a walkthrough. */
export interface TakeSubject extends WalkthroughSubject {
  readonly takeId: Id;
  readonly recordedById: Id;
  readonly voiceState: string;
}

const isFamily = (person: Person, playerId: Id) => isSelf(person, playerId) || isGuardianOf(person, playerId);

/** Records walkthroughs for a player, and sees what there is of them, sent or not. */
export const recordFor = ability<PlayerSubject>()("walkthrough.record", (person, player) => teaches(person, player.id));
export const seeWholeWalkthrough = ability<WalkthroughSubject>()("walkthrough.see-whole", (person, it) => teaches(person, it.playerId));
/** Puts chapters and words right, sends it, takes it back, removes it. */
export const changeWalkthrough = ability<WalkthroughSubject>()("walkthrough.change", (person, it) => teaches(person, it.playerId));
/** Sends the voice of a take: only who recorded it, and only while still coaching the player. */
export const sendVoiceOf = ability<TakeSubject>()("walkthrough.send-voice", (person, it) => person.userId === it.recordedById && teaches(person, it.playerId));

/** Reads walkthroughs that were sent for a player: the coaching side, the player, the guardians. The office has no need to. */
export const seeSentOf = ability<PlayerSubject>()("walkthrough.list-sent", (person, player) => teaches(person, player.id) || isFamily(person, player.id));
export const seeSentWalkthrough = ability<WalkthroughSubject>()("walkthrough.see-sent", (person, it) => it.isSent && (teaches(person, it.playerId) || isFamily(person, it.playerId)));
/** Hears the voice, takes the film or the parcel away. */
export const hearWalkthrough = ability<WalkthroughSubject>()(
  "walkthrough.hear",
  (person, it) => it.isPermitted && (teaches(person, it.playerId) || (it.isSent && isFamily(person, it.playerId))),
);

/** Makes the film: the worker's business. */
export const makeFilm = ability<WalkthroughSubject>()("walkthrough.make-film", () => false, [filmAsked.name]);
/** Makes the small stills with which it begins: the worker's business. */
export const makeOpening = ability<WalkthroughSubject>()("walkthrough.make-opening", () => false, [openingWanted.name]);
/** Removes bytes that nothing names any more: the worker's business. */
export const dropBytes = ability<Subject>()("walkthrough.drop-bytes", () => false, [bytesDropped.name, clipErased.name]);
