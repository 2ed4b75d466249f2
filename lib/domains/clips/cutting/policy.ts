import { ability, type Subject } from "@/lib/access/ability";
import { teaches } from "@/lib/domains/roster/policy";
import type { ClipSubject } from "../policy";
import { filmKept } from "./events";

/** Cuts swings out of a clip, and sees what is offered: who may work on it. */
export const cutClip = ability<ClipSubject>()("clip.cut", (person, clip) => clip.isPermitted && teaches(person, clip.playerId));
/** Looks for swings in a film: the worker's business. */
export const findSwingsOf = ability<Subject>()("file.find-swings", () => false, [filmKept.name]);
