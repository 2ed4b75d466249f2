import { ability, type Subject } from "@/lib/access/ability";
import { teaches, type PlayerSubject } from "../policy";

/** Writes an incident note: whoever was there for the academy, that is the coaching side and the office. */
export const noteIncident = ability<PlayerSubject>()("player.note-incident", (person, player) => person.role === "admin" || teaches(person, player.id));
/** Reads the academy's incident notes. What a family itself reported of pain stays between family and coaches, and is not among them. */
export const listIncidents = ability<Subject>()("roster.list-incidents", (person) => person.role === "admin" || person.role === "head-coach");
