import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { isGuardianOf, isSelf, teaches } from "@/lib/domains/roster/policy";
import { swingChanged, uploadReceived } from "./events";

/** Whose clips are asked for. */
export interface ClipOwner extends Subject {
  readonly playerId: Id;
}

/** A swing of a player. */
export interface SwingSubject extends ClipOwner {
  readonly id: Id;
}

/** A clip with what decides whether it may be watched now. */
export interface ClipSubject extends SwingSubject {
  readonly swingId: Id;
  readonly fileId: Id;
  readonly firstFrame: number;
  readonly lastFrame: number;
  /** Whether a consent to film for lessons is in force today. */
  readonly isPermitted: boolean;
  /** Whether it is of a swing that is shown as a model today: every coach may look at it then. */
  readonly isModel: boolean;
}

/** A drawing on a clip. */
export interface MarkSubject extends ClipSubject {
  readonly markId: Id;
}

/** One sending of a file. */
export interface UploadSubject extends ClipOwner {
  readonly id: Id;
  readonly userId: Id;
  readonly state: string;
  readonly byteLength: number;
}

/** Sees a player's swings and what was made of them: the coaching side. The office has no need to. */
export const seeSwings = ability<ClipOwner>()("swings.see", (person, owner) => teaches(person, owner.playerId));
export const seeSwing = ability<SwingSubject>()("swing.see", (person, swing) => teaches(person, swing.playerId));
/** Reads a swing to make its readings anew. */
export const readSwing = ability<SwingSubject>()("swing.read", () => false, [swingChanged.name]);

export const addClip = ability<ClipOwner>()("clip.add", (person, owner) => teaches(person, owner.playerId));
export const isFamily = (person: Person, playerId: Id) => isSelf(person, playerId) || isGuardianOf(person, playerId);
const coaches = (person: Person) => person.role === "coach" || person.role === "head-coach";

/** Watches a clip or a still of it, while the consent is in force: who teaches, the player, a guardian; a model every coach. */
export const watchClip = ability<ClipSubject>()(
  "clip.watch",
  (person, clip) =>
    clip.isPermitted && (teaches(person, clip.playerId) || isFamily(person, clip.playerId) || (clip.isModel && coaches(person))),
);
/** Sets events, places points, draws: on what one may also watch. */
export const workOnClip = ability<ClipSubject>()("clip.work-on", (person, clip) => clip.isPermitted && teaches(person, clip.playerId));
export const removeMarkOf = ability<MarkSubject>()("mark.remove", (person, mark) => mark.isPermitted && teaches(person, mark.playerId));

/** Sends the bytes of an upload: only who began it, and only while still coaching the player or of the family. */
export const sendBytes = ability<UploadSubject>()("upload.send", (person, upload) => person.userId === upload.userId && (teaches(person, upload.playerId) || isFamily(person, upload.playerId)));
/** Takes back an upload, or puts a refused one away: the coaching side, and of the family who sent it. */
export const settleUpload = ability<UploadSubject>()("upload.settle", (person, upload) => teaches(person, upload.playerId) || (person.userId === upload.userId && isFamily(person, upload.playerId)));
/** Looks at the bytes that arrived and makes a clip of them. */
export const checkUpload = ability<UploadSubject>()("upload.check", () => false, [uploadReceived.name]);
