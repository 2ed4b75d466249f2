/**
 * The made-up academy. Every name here is invented; birth dates are given as an age on the day the demo is made and
 * days since the last birthday, so that nobody grows up while the demo lies in a drawer.
 */
export interface DemoPlayer {
  readonly key: string;
  readonly givenName: string;
  readonly familyName: string;
  readonly ageYears: number;
  readonly daysSinceBirthday: number;
  readonly sport: "baseball" | "softball";
  readonly bats: "right" | "left" | "both";
  readonly heightM: number;
  readonly isSlapper?: boolean;
  /** User name of a player who signs in. */
  readonly userName?: string;
  readonly email?: string;
  readonly coaches: readonly string[];
  /** Days for which the consent to film still holds; negative: lapsed so long ago; null: never given. */
  readonly consentDaysLeft: number | null;
  readonly home?: {
    readonly gear: readonly string[];
    readonly widthM: number;
    readonly lengthM: number;
    readonly hasCage?: boolean;
    readonly partnerCount: number;
    readonly adult: "none" | "nearby" | "in-charge" | "operates";
    readonly minutesPerDay: number;
    readonly daysPerWeek: number;
  };
}

const GARDEN = { gear: ["bat", "tee", "net", "ball", "soft-core-ball", "towel", "tape", "phone", "mirror", "wall"], widthM: 5, lengthM: 7, partnerCount: 0, adult: "nearby", minutesPerDay: 12, daysPerWeek: 4 } as const;
const ROOM = { gear: ["bat", "mirror", "phone", "towel", "tape", "wall"], widthM: 3, lengthM: 3, partnerCount: 0, adult: "nearby", minutesPerDay: 10, daysPerWeek: 3 } as const;
const CAGE = { gear: ["bat", "tee", "second-tee", "net", "ball", "helmet", "screen", "phone", "tape", "cones", "wall"], widthM: 5, lengthM: 18, hasCage: true, partnerCount: 1, adult: "in-charge", minutesPerDay: 20, daysPerWeek: 4 } as const;

export const PLAYERS: readonly DemoPlayer[] = [
  { key: "ines", givenName: "Ines", familyName: "Corvane", ageYears: 12, daysSinceBirthday: 180, sport: "softball", bats: "both", heightM: 1.52, userName: "ines.c", coaches: ["marlow"], consentDaysLeft: 290, home: GARDEN },
  { key: "dell", givenName: "Dell", familyName: "Okonvar", ageYears: 14, daysSinceBirthday: 60, sport: "baseball", bats: "right", heightM: 1.68, userName: "dell.o", coaches: ["marlow"], consentDaysLeft: 200, home: CAGE },
  { key: "tobin", givenName: "Tobin", familyName: "Ashwicke", ageYears: 11, daysSinceBirthday: 200, sport: "baseball", bats: "left", heightM: 1.45, userName: "tobin.a", coaches: ["marlow"], consentDaysLeft: 120, home: GARDEN },
  { key: "sumi", givenName: "Sumi", familyName: "Tanabara", ageYears: 10, daysSinceBirthday: 20, sport: "softball", bats: "right", heightM: 1.38, coaches: ["marlow"], consentDaysLeft: null },
  { key: "bea", givenName: "Bea", familyName: "Thornquil", ageYears: 12, daysSinceBirthday: 300, sport: "softball", bats: "right", heightM: 1.55, userName: "bea.t", coaches: ["marlow", "vesna"], consentDaysLeft: 340, home: GARDEN },
  { key: "rafa", givenName: "Rafa", familyName: "Quintelo", ageYears: 27, daysSinceBirthday: 90, sport: "baseball", bats: "left", heightM: 1.82, email: "rafa@quillet.example", coaches: ["marlow"], consentDaysLeft: 250, home: CAGE },
  { key: "juno", givenName: "Juno", familyName: "Pallisor", ageYears: 13, daysSinceBirthday: 40, sport: "softball", bats: "left", heightM: 1.58, isSlapper: true, userName: "juno.p", coaches: ["vesna"], consentDaysLeft: 310, home: GARDEN },
  { key: "oskar", givenName: "Oskar", familyName: "Veldane", ageYears: 16, daysSinceBirthday: 150, sport: "baseball", bats: "right", heightM: 1.78, userName: "oskar.v", coaches: ["vesna"], consentDaysLeft: 160, home: CAGE },
  { key: "wren", givenName: "Wren", familyName: "Halloway", ageYears: 9, daysSinceBirthday: 100, sport: "baseball", bats: "right", heightM: 1.33, userName: "wren.h", coaches: ["marlow"], consentDaysLeft: 330, home: ROOM },
  { key: "milo", givenName: "Milo", familyName: "Halloway", ageYears: 12, daysSinceBirthday: 30, sport: "baseball", bats: "both", heightM: 1.5, userName: "milo.h", coaches: ["ottoline", "marlow"], consentDaysLeft: 330, home: ROOM },
  { key: "tamsin", givenName: "Tamsin", familyName: "Orrey", ageYears: 17, daysSinceBirthday: 210, sport: "softball", bats: "right", heightM: 1.71, userName: "tamsin.o", coaches: ["ottoline"], consentDaysLeft: 90, home: CAGE },
  { key: "idris", givenName: "Idris", familyName: "Fennimore", ageYears: 15, daysSinceBirthday: 10, sport: "baseball", bats: "left", heightM: 1.74, coaches: ["ottoline"], consentDaysLeft: -35 },
  { key: "pell", givenName: "Pell", familyName: "Castellane", ageYears: 10, daysSinceBirthday: 250, sport: "baseball", bats: "both", heightM: 1.4, userName: "pell.c", coaches: ["vesna"], consentDaysLeft: 220, home: ROOM },
  { key: "noor", givenName: "Noor", familyName: "Castellane", ageYears: 13, daysSinceBirthday: 330, sport: "softball", bats: "right", heightM: 1.6, userName: "noor.c", coaches: ["ottoline"], consentDaysLeft: 220, home: GARDEN },
];

export interface DemoGrownUp {
  readonly key: string;
  readonly name: string;
  readonly email: string;
  readonly roles: readonly ("admin" | "head-coach" | "coach" | "guardian")[];
  readonly children?: readonly string[];
  /** A coach who is no longer here. */
  readonly hasLeft?: boolean;
}

export const GROWN_UPS: readonly DemoGrownUp[] = [
  { key: "rosalind", name: "Rosalind Teague", email: "rosalind@quillet.example", roles: ["admin"] },
  { key: "adair", name: "Adair Linsky", email: "adair@quillet.example", roles: ["head-coach"] },
  { key: "marlow", name: "Marlow Tessen", email: "marlow@quillet.example", roles: ["coach"] },
  { key: "vesna", name: "Vesna Coldbrook", email: "vesna@quillet.example", roles: ["coach", "guardian"], children: ["tamsin"] },
  { key: "ottoline", name: "Ottoline Brack", email: "ottoline@quillet.example", roles: ["coach"] },
  { key: "hale", name: "Hale Dunmore", email: "hale@quillet.example", roles: ["coach"], hasLeft: true },
  { key: "odile", name: "Odile Corvane", email: "odile@quillet.example", roles: ["guardian"], children: ["ines"] },
  { key: "bastien", name: "Bastien Corvane", email: "bastien@quillet.example", roles: ["guardian"], children: ["ines"] },
  { key: "mina", name: "Mina Okonvar", email: "mina@quillet.example", roles: ["guardian"], children: ["dell"] },
  { key: "fern", name: "Fern Ashwicke", email: "fern@quillet.example", roles: ["guardian"], children: ["tobin"] },
  { key: "kenji", name: "Kenji Tanabara", email: "kenji@quillet.example", roles: ["guardian"], children: ["sumi"] },
  { key: "della", name: "Della Thornquil", email: "della@quillet.example", roles: ["guardian"], children: ["bea"] },
  { key: "anselm", name: "Anselm Pallisor", email: "anselm@quillet.example", roles: ["guardian"], children: ["juno"] },
  { key: "greta", name: "Greta Veldane", email: "greta@quillet.example", roles: ["guardian"], children: ["oskar"] },
  { key: "garnet", name: "Garnet Halloway", email: "garnet@quillet.example", roles: ["guardian"], children: ["wren", "milo"] },
  { key: "salome", name: "Salome Fennimore", email: "salome@quillet.example", roles: ["guardian"], children: ["idris"] },
  { key: "piers", name: "Piers Castellane", email: "piers@quillet.example", roles: ["guardian"], children: ["pell", "noor"] },
];

export const ACADEMY = { name: "Quillet Yard", timeZone: "America/Chicago", location: "The Yard" } as const;

/** One password for everybody in the demo. */
export const DEMO_PASSWORD = "belt first then foot";

/** Who is named on the screen when the house starts, and what they come for. */
export const SIGN_INS: readonly { readonly key: string; readonly as: string }[] = [
  { key: "marlow", as: "coach" },
  { key: "adair", as: "head coach" },
  { key: "ines", as: "player, twelve" },
  { key: "garnet", as: "guardian of two" },
  { key: "rosalind", as: "admin" },
];
