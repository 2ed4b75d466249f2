import type { Level } from "@/lib/core/age";

/** What a drill is done with. */
export const SETUPS = ["dry", "tee", "toss", "live", "machine", "throw", "strength", "mobility"] as const;
export type Setup = (typeof SETUPS)[number];
/** What a drill asks of an adult, and what a player has: each includes those before it. */
export const ADULT_RULES = ["none", "nearby", "in-charge", "operates"] as const;
export type AdultRule = (typeof ADULT_RULES)[number];
/** Where a complaint can be. Parts of the body, never names of injuries. */
export const BODY_PARTS = ["knee", "hip", "groin", "back", "side", "shoulder", "elbow", "wrist", "hand"] as const;
export type BodyPart = (typeof BODY_PARTS)[number];
export type Season = "off-season" | "pre-season" | "in-season" | "break";
export type Sport = "baseball" | "softball";

export interface Dose {
  readonly minutes: number;
  readonly sets: number;
  readonly reps: number;
  /** Swings that count towards the caps, those at less than 60 % effort already halved. */
  readonly fullSwings: number;
  readonly effortPercent: number;
}

/** A drill as far as choosing it goes: the library's record has these fields and more. Ids are the library's. */
export interface Drill {
  readonly id: string;
  readonly name: string;
  readonly sport: "both" | Sport;
  readonly setup: Setup;
  readonly faults: readonly { readonly fault: string; readonly effect: number; readonly role: "primary" | "secondary" }[];
  /** Every entry is needed; an entry is an item of gear or a group of which one item will do. */
  readonly gear: readonly string[];
  /** Free width and length in metres, the swing circle inside. */
  readonly spaceM: { readonly w: number; readonly l: number };
  readonly needsCage: boolean;
  /** Other people the drill needs; an adult in charge or operating is one of them. */
  readonly partnerCount: number;
  readonly adult: AdultRule;
  readonly dose: Dose;
  readonly levels: readonly Level[];
  readonly minAge: number;
  readonly next: string | null;
  readonly easier: string | null;
  /** Written for regulation balls; softer ones may always replace them. */
  readonly hardBalls: boolean;
  readonly helmet: boolean;
  readonly avoidParts: readonly BodyPart[];
  readonly avoidCauses?: readonly string[];
  readonly requiresDrill?: readonly string[];
  readonly faceGuardUnderAge?: number;
  readonly onlyFor?: "slap";
}

/** Things to hit with, at and behind: items, and groups of which any one item will do. */
export interface GearCatalogue {
  readonly items: readonly { readonly id: string; readonly name: string }[];
  readonly groups: readonly { readonly id: string; readonly name: string; readonly anyOf: readonly string[] }[];
}

/** A drill of the last plan before the season, with its dose. */
export interface KeptDrill {
  readonly drillId: string;
  readonly timesPerDay: number;
  readonly minutesPerDay: number;
  readonly swingsPerDay: number;
  readonly daysPerWeek: number;
}

/** A player on a day, as far as choosing drills goes. */
export interface DrillPlayer {
  /** What the player is called in a reason; "this player" when absent. */
  readonly firstName?: string;
  /** Completed years today: limits by age never use an older day. */
  readonly ageYears: number;
  readonly level: Level;
  readonly sport: Sport;
  /** Taken as a slapper on the side worked on. */
  readonly isSlapper: boolean;
  /** Items of gear at the place. */
  readonly gear: readonly string[];
  /** Free room in metres; `hasCage`: a netted cage. */
  readonly space: { readonly widthM: number; readonly lengthM: number; readonly hasCage: boolean };
  /** Other people who are there, an adult among them. */
  readonly partnerCount: number;
  readonly adult: AdultRule;
  readonly complaints: readonly BodyPart[];
  /** Causes being worked on or asked about. */
  readonly causesWorkedOn: readonly string[];
  readonly learnedDrills: readonly string[];
  /** Not set: no rule of the season blocks anything. */
  readonly season?: Season;
  /** Swing homework stands still after a report of pain or an incident. */
  readonly isPaused?: boolean;
  /** Faults that the season's rule forbids as a focus now. */
  readonly forbiddenFocus?: readonly string[];
  /** In season a focus from before keeps these, with no larger dose; absent where no such rule holds. */
  readonly keptDrills?: readonly KeptDrill[];
}
