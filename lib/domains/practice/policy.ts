import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { isGuardianOf, isSelf, teaches, type PlayerSubject } from "@/lib/domains/roster/policy";

/** One drill of a plan, as homework of a player. A drill of a draft is not homework yet. */
export interface HomeworkSubject extends Subject {
  readonly id: Id;
  readonly playerId: Id;
  readonly isSent: boolean;
}

const isFamily = (person: Person, playerId: Id) => isSelf(person, playerId) || isGuardianOf(person, playerId);

/** Counts what was done, corrects it, takes it back: the player and the guardians. */
export const logHomework = ability<HomeworkSubject>()("practice.log", (person, homework) => homework.isSent && isFamily(person, homework.playerId));
/** Opens the family's pages of a player. */
export const seeFamilyPages = ability<PlayerSubject>()("practice.see-family-pages", (person, player) => isFamily(person, player.id));
/** Opens the page for parents: a guardian, never the player. */
export const seeParentsPage = ability<PlayerSubject>()("practice.see-parents-page", (person, player) => isGuardianOf(person, player.id));
/** Sees what was counted: the coaching side, the player, the guardians. */
export const seeCounts = ability<PlayerSubject>()("practice.see-counts", (person, player) => teaches(person, player.id) || isFamily(person, player.id));
/** Sees the counts of several players at once; of which, is the scope's business. */
export const listCounts = ability<Subject>()("practice.list-counts", (person) => person.role === "coach" || person.role === "head-coach");
