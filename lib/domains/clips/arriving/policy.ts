import { ability } from "@/lib/access/ability";
import { teaches } from "@/lib/domains/roster/policy";
import { uploadReceived } from "../events";
import { isFamily, type UploadSubject } from "../policy";
import { leftoversDue } from "./events";

/** An upload with whether a consent to film for lessons is in force today, and where its one picture is kept; null while it is still among what arrived. */
export interface ArrivingSubject extends UploadSubject {
  readonly keptPosterKey: string | null;
  readonly isPermitted: boolean;
}

/** Lets a film be looked at once more whose bytes wait here: the coaching side, and of the family who sent it. */
export const retryUploadOf = ability<UploadSubject>()("upload.retry", (person, upload) => teaches(person, upload.playerId) || (person.userId === upload.userId && isFamily(person, upload.playerId)));
/** Sees the one picture of a film that is still being looked at: who teaches, while the consent is in force. */
export const seeArriving = ability<ArrivingSubject>()("upload.see", (person, upload) => upload.isPermitted && teaches(person, upload.playerId));
/** Catches up with what was left behind on the way. */
export const tidyUpload = ability<UploadSubject>()("upload.tidy", () => false, [leftoversDue.name, uploadReceived.name]);
