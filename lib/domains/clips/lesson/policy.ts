import { ability, type Subject } from "@/lib/access/ability";

/** Films a group: of those whom the person teaches, which the scope says. */
export const filmGroup = ability<Subject>()("lesson.film-group", (person) => person.role === "coach" || person.role === "head-coach");
