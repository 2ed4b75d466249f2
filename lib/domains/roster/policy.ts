import { ability, type Subject } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { isAdultOn } from "./rules";

/** A player as the rules below need to know one. */
export interface PlayerSubject extends Subject {
  readonly id: Id;
  /** YYYY-MM-DD; for the rules only, it never leaves with a view for coaches. */
  readonly birthDate: string;
  readonly hasLeft: boolean;
}

/** The office: it keeps the roster and holds no coaching opinion. */
const isOffice = (person: Person) => person.role === "admin";

/** The coaching side of a player: a coach who is assigned today, or the head coach. */
export function teaches(person: Person, playerId: Id): boolean {
  return person.role === "head-coach" || (person.role === "coach" && person.coachedPlayerIds.includes(playerId));
}

/** The player himself or herself. */
export function isSelf(person: Person, playerId: Id): boolean {
  return person.role === "player" && person.ownPlayerId === playerId;
}

/** A guardian of this player today. */
export function isGuardianOf(person: Person, playerId: Id): boolean {
  return person.role === "guardian" && person.wardIds.includes(playerId);
}

/** Everybody who may know of this player at all: what any later domain asks first. */
export function mayKnow(person: Person, playerId: Id): boolean {
  return isOffice(person) || teaches(person, playerId) || isSelf(person, playerId) || isGuardianOf(person, playerId);
}

/** Who decides for the family: a guardian, and once of age the player. */
function decides(person: Person, player: PlayerSubject): boolean {
  return isGuardianOf(person, player.id) || (isSelf(person, player.id) && isAdultOn(player.birthDate, person.today));
}

export const seePlayer = ability<PlayerSubject>()("player.see", (person, player) => mayKnow(person, player.id));
export const teachPlayer = ability<PlayerSubject>()("player.teach", (person, player) => teaches(person, player.id));
export const editPlayer = ability<PlayerSubject>()("player.edit", isOffice);
export const manageGuardians = ability<PlayerSubject>()("player.manage-guardians", isOffice);
export const assignCoaches = ability<PlayerSubject>()("player.assign-coaches", (person) => isOffice(person) || person.role === "head-coach");

export const seeConsents = ability<PlayerSubject>()(
  "player.see-consents",
  (person, player) => isOffice(person) || isGuardianOf(person, player.id) || isSelf(person, player.id),
);
export const recordConsent = ability<PlayerSubject>()("player.record-consent", (person, player) => isOffice(person) || decides(person, player));
export const withdrawConsent = ability<PlayerSubject>()("player.withdraw-consent", (person, player) => isOffice(person) || decides(person, player));

export const setHome = ability<PlayerSubject>()(
  "player.set-home",
  (person, player) => isOffice(person) || teaches(person, player.id) || decides(person, player),
);
export const recordComplaint = ability<PlayerSubject>()(
  "player.record-complaint",
  (person, player) => isOffice(person) || teaches(person, player.id) || decides(person, player),
);

export const reportPain = ability<PlayerSubject>()(
  "player.report-pain",
  (person, player) => teaches(person, player.id) || isSelf(person, player.id) || isGuardianOf(person, player.id),
);
export const clearPauseAsCoach = ability<PlayerSubject>()("player.clear-pause-as-coach", (person, player) => teaches(person, player.id));
export const clearPauseAsFamily = ability<PlayerSubject>()("player.clear-pause-as-family", decides);

/** Reads the roster's list; which players stand in it is the scope's business. */
export const listRoster = ability<Subject>()("roster.list", (person) => ["admin", "head-coach", "coach"].includes(person.role));
/** Adds players and sees the office's lists. */
export const manageRoster = ability<Subject>()("roster.manage", isOffice);
/** Sees who coaches, to assign and to hand over. */
export const seeCoaches = ability<Subject>()("roster.see-coaches", (person) => isOffice(person) || person.role === "head-coach");
/** The children (or the own record) between which the portal switches. */
export const switchPlayer = ability<Subject>()("roster.switch-player", (person) => person.role === "guardian" || person.role === "player");
