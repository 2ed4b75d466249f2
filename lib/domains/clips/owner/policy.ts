import { ability } from "@/lib/access/ability";
import { teaches } from "@/lib/domains/roster/policy";
import type { SwingSubject, UploadSubject } from "../policy";

/** Gives a swing to another player: who teaches the one it stands at; whether the other may have it is asked with "clip.add". */
export const moveSwing = ability<SwingSubject>()("swing.move", (person, swing) => teaches(person, swing.playerId));
/** Gives a video on its way to another player: who sent it, and still teaches the one it stands at. */
export const moveUpload = ability<UploadSubject>()("upload.move", (person, upload) => person.userId === upload.userId && teaches(person, upload.playerId));
/** Joins two swings of a player that are one, or parts a clip from a swing. */
export const sortClips = ability<SwingSubject>()("swing.sort-clips", (person, swing) => teaches(person, swing.playerId));
