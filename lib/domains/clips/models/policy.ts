import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import type { SwingSubject } from "../policy";

/** A model as the rules below need to know one. */
export interface ModelSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
  readonly swingId: Id;
}

const isHeadCoach = (person: Person) => person.role === "head-coach";

/** Keeps a swing as a model. */
export const keepAsModel = ability<SwingSubject>()("swing.keep-as-model", isHeadCoach);
/** Changes a model's tags and right, withdraws it, undoes that. */
export const changeModel = ability<ModelSubject>()("model.change", isHeadCoach);
/** Sees every model with its right. */
export const manageModels = ability<Subject>()("models.manage", isHeadCoach);
/** Looks at the models that are shown: the coaching side, whoever teaches the hitter. */
export const lookAtModels = ability<Subject>()("models.look-at", (person) => person.role === "coach" || isHeadCoach(person));
