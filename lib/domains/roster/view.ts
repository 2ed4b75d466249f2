import type { Person } from "@/lib/access/actor";
import { ageYears, isMinor, isYouth, levelOfAge, type Level } from "@/lib/core/age";
import type { Id } from "@/lib/core/ids";
import { noteIncident } from "./incidents/policy";
import { clearPauseAsCoach, clearPauseAsFamily, editPlayer, recordComplaint, recordConsent, reportPain, setHome, teachPlayer } from "./policy";
import type { AdultAtHome, Bats, BodyPart, ConsentUse, PainPart, Side, Sport } from "./rules";
import type { IncidentKind } from "./incidents/rules";
import type { PlayerRowForView } from "./scope";
import { setSeason } from "./seasons/policy";
import { seasonNow, type SeasonNow } from "./seasons/view";

/** One of a player's batting sides: a switch hitter has two, each with its own record. */
export interface SideView {
  readonly side: Side;
  readonly isSlapper: boolean;
}

/** Swings stop; who has cleared it already. */
export interface PauseView {
  readonly id: Id;
  readonly startedAt: string;
  /** A report of pain, or an incident that the academy noted. */
  readonly cause: "pain-report" | IncidentKind;
  readonly part: PainPart;
  /** How much it hurts, 0 to 10, for who teaches the player; null for everybody else and for an incident. */
  readonly level: number | null;
  readonly words: string;
  /** What was done at once; empty for a report of pain. */
  readonly firstAid: string;
  readonly reportedBy: string;
  /** After a blow to the head: the day on which a licensed clinician said yes. */
  readonly clinicianSaidOn: string | null;
  readonly isClearedByCoach: boolean;
  readonly isClearedByFamily: boolean;
}

/** What a player may be filmed and shown for, and the first day on which that ends. */
export interface PermitView {
  readonly use: ConsentUse;
  readonly validUntil: string;
  readonly isValid: boolean;
}

/** A player as coaches, family and office see one. The age is here, the birth date is not. */
export interface PlayerView {
  readonly id: Id;
  readonly name: string;
  readonly givenName: string;
  readonly ageYears: number;
  readonly level: Level;
  readonly isMinor: boolean;
  readonly sport: Sport;
  readonly bats: Bats;
  readonly sides: readonly SideView[];
  readonly heightM: number | null;
  readonly locationName: string;
  readonly hasLeft: boolean;
  readonly complaints: readonly BodyPart[];
  readonly pauses: readonly PauseView[];
  readonly isPaused: boolean;
  /** In which part of the year the player is; null while nobody said. */
  readonly season: SeasonNow | null;
  readonly permits: readonly PermitView[];
  readonly can: {
    readonly teach: boolean;
    readonly edit: boolean;
    readonly reportPain: boolean;
    readonly clearPauseAsCoach: boolean;
    readonly clearPauseAsFamily: boolean;
    readonly recordConsent: boolean;
    readonly setHome: boolean;
    readonly recordComplaint: boolean;
    readonly noteIncident: boolean;
    readonly setSeason: boolean;
  };
}

/** One line of the roster. */
export interface PlayerRow {
  readonly id: Id;
  readonly name: string;
  readonly ageYears: number;
  readonly sport: Sport;
  readonly bats: Bats;
  readonly coachNames: readonly string[];
  readonly guardianCount: number;
  readonly isPaused: boolean;
  readonly mayBeFilmed: boolean;
}

export interface PlayerPage {
  readonly rows: readonly PlayerRow[];
  /** Hand back as `after` for the next rows; null at the end. */
  readonly next: Id | null;
}

/** One of the players between whom a family's portal switches. */
export interface FamilyPlayer {
  readonly id: Id;
  readonly givenName: string;
  readonly name: string;
}

export interface HomeView {
  readonly gear: readonly string[];
  readonly widthM: number;
  readonly lengthM: number;
  readonly hasCage: boolean;
  readonly partnerCount: number;
  readonly adult: AdultAtHome;
  readonly minutesPerDay: number;
  readonly daysPerWeek: number;
}

/** What the reasoning needs to know of a player: facts of today in the time zone of the player's location. */
export interface PlayerFacts {
  readonly playerId: Id;
  readonly givenName: string;
  readonly today: string;
  readonly ageYears: number;
  readonly level: Level;
  readonly isMinor: boolean;
  readonly isYouth: boolean;
  readonly sport: Sport;
  readonly sides: readonly SideView[];
  readonly heightM: number | null;
  readonly home: HomeView | null;
  readonly complaints: readonly BodyPart[];
  readonly isPaused: boolean;
  readonly season: SeasonNow | null;
  readonly permittedUses: readonly ConsentUse[];
}

export interface PersonSpan {
  /** The row of the relation, not of the person. */
  readonly id: Id;
  readonly userId: Id;
  readonly name: string;
  readonly from: string;
  readonly until: string | null;
  readonly isNow: boolean;
}

export interface GuardianView extends PersonSpan {
  readonly relation: string;
  readonly email: string | null;
  readonly hasSignedUp: boolean;
}

export interface ConsentView {
  readonly id: Id;
  readonly use: ConsentUse;
  readonly givenOn: string;
  readonly validUntil: string;
  readonly givenBy: string | null;
  readonly method: "signed-in" | "paper";
  readonly isWithdrawn: boolean;
  readonly isValid: boolean;
}

/** The office's page of one player. */
export interface PlayerRecord {
  readonly player: PlayerView;
  readonly familyName: string;
  readonly birthDate: string;
  readonly hasLeftSchool: boolean;
  readonly login: { readonly email: string | null; readonly userName: string | null } | null;
  readonly guardians: readonly GuardianView[];
  readonly coaches: readonly PersonSpan[];
  readonly consents: readonly ConsentView[];
  readonly complaints: readonly { readonly id: Id; readonly part: BodyPart; readonly since: string }[];
  readonly home: HomeView | null;
}

export interface CoachOption {
  readonly userId: Id;
  readonly name: string;
  readonly playerCount: number;
}

/** Something waits for the reader; words are made where it is shown. */
export interface NoticeView {
  readonly id: Id;
  readonly kind: string;
  readonly playerId: Id;
  readonly playerName: string;
  readonly subjectId: Id;
  readonly at: string;
  readonly isRead: boolean;
}

const day = (value: Date) => value.toISOString().slice(0, 10);

/** Makes the view; `today` is the day at the player's location, `names` holds the names of those who reported. */
export function playerView(row: PlayerRowForView, actor: Person, today: string, names: ReadonlyMap<Id, string>): PlayerView {
  const years = ageYears(day(row.birthDate), today);
  const subject = { id: row.id, academyId: row.academyId, birthDate: day(row.birthDate), hasLeft: row.leftAt !== null };
  return {
    id: row.id,
    name: `${row.givenName} ${row.familyName}`,
    givenName: row.givenName,
    ageYears: years,
    level: levelOfAge(years, row.hasLeftSchool),
    isMinor: isMinor(years),
    sport: row.sport as Sport,
    bats: row.bats as Bats,
    sides: sideViews(row),
    heightM: row.heightM,
    locationName: row.location.name,
    hasLeft: row.leftAt !== null,
    complaints: row.complaints.map(({ part }) => part as BodyPart),
    // The office knows that swings are paused, and no more.
    // How much it hurts and in which words it was said is for who teaches the player; what was noted of an incident is for the family too.
    pauses: (actor.role === "admin" ? [] : row.pauses).map((pause) => {
      const view = pauseView(pause, names);
      return teachPlayer.allows(actor, subject) || view.cause !== "pain-report" ? view : { ...view, level: null, words: "" };
    }),
    isPaused: row.pauses.length > 0,
    season: seasonNow(row.seasons, today),
    permits: row.permits.map((permit) => ({ use: permit.use as ConsentUse, validUntil: day(permit.validUntil), isValid: day(permit.validUntil) > today })),
    can: {
      teach: teachPlayer.allows(actor, subject),
      edit: editPlayer.allows(actor, subject),
      reportPain: reportPain.allows(actor, subject),
      clearPauseAsCoach: clearPauseAsCoach.allows(actor, subject),
      clearPauseAsFamily: clearPauseAsFamily.allows(actor, subject),
      recordConsent: recordConsent.allows(actor, subject),
      setHome: setHome.allows(actor, subject),
      recordComplaint: recordComplaint.allows(actor, subject),
      noteIncident: noteIncident.allows(actor, subject),
      setSeason: setSeason.allows(actor, subject),
    },
  };
}

function pauseView({ painReport, incident, ...pause }: PlayerRowForView["pauses"][number], names: ReadonlyMap<Id, string>): PauseView {
  const by = painReport?.reportedById ?? incident?.notedById ?? "";
  return {
    id: pause.id,
    startedAt: pause.startedAt.toISOString(),
    cause: (incident?.kind ?? "pain-report") as PauseView["cause"],
    part: (painReport?.part ?? incident?.part ?? "elsewhere") as PainPart,
    level: painReport?.level ?? null,
    words: painReport?.words ?? incident?.words ?? "",
    firstAid: incident?.firstAid ?? "",
    reportedBy: names.get(by) ?? "somebody who has left",
    clinicianSaidOn: pause.clinicianSaidOn && day(pause.clinicianSaidOn),
    isClearedByCoach: pause.coachClearedAt !== null,
    isClearedByFamily: pause.familyClearedAt !== null,
  };
}

/** What the reasoning may know, from the same row. */
export function playerFacts(row: PlayerRowForView, today: string): PlayerFacts {
  const years = ageYears(day(row.birthDate), today);
  return {
    playerId: row.id,
    givenName: row.givenName,
    today,
    ageYears: years,
    level: levelOfAge(years, row.hasLeftSchool),
    isMinor: isMinor(years),
    isYouth: isYouth(years),
    sport: row.sport as Sport,
    sides: sideViews(row),
    heightM: row.heightM,
    home: homeView(row.homeSetup),
    complaints: row.complaints.map(({ part }) => part as BodyPart),
    isPaused: row.pauses.length > 0,
    season: seasonNow(row.seasons, today),
    permittedUses: row.permits.filter((permit) => day(permit.validUntil) > today).map(({ use }) => use as ConsentUse),
  };
}

/** The sides that are batted now; one that was given up keeps its record and is not among them. */
function sideViews(row: Pick<PlayerRowForView, "sides" | "bats">): SideView[] {
  return row.sides.filter(({ side }) => row.bats === "both" || row.bats === side).map(({ side, isSlapper }) => ({ side: side as Side, isSlapper }));
}

export function homeView(row: PlayerRowForView["homeSetup"]): HomeView | null {
  if (!row) return null;
  const { gear, widthM, lengthM, hasCage, partnerCount, adult, minutesPerDay, daysPerWeek } = row;
  return { gear, widthM, lengthM, hasCage, partnerCount, adult: adult as AdultAtHome, minutesPerDay, daysPerWeek };
}
