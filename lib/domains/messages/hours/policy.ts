import { ability, type Subject } from "@/lib/access/ability";
import type { Id } from "@/lib/core/ids";

export interface LocationSubject extends Subject {
  readonly id: Id;
}

/** Says between which hours messages go out at a location: the office. */
export const setHours = ability<LocationSubject>()("messages.set-hours", (person) => person.role === "admin");
/** Reads them for every location. */
export const listHours = ability<Subject>()("messages.list-hours", (person) => person.role === "admin");
