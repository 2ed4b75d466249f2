import type { ProposalState } from "../schema";

/** The library's texts for closed lists, and small phrases made of numbers. */
export const SETUP_WORDS: Readonly<Record<string, string>> = {
  dry: "Without a ball", tee: "Off the tee", toss: "Toss", live: "Live pitching", machine: "Machine", throw: "Throwing", strength: "Strength", mobility: "Mobility",
};

export const ADULT_WORDS: Readonly<Record<string, string>> = {
  none: "No adult is needed", nearby: "An adult is near", "in-charge": "An adult is in charge", operates: "An adult feeds or operates",
};

export const SPORT_WORDS: Readonly<Record<string, string>> = { both: "Baseball and softball", baseball: "Baseball", softball: "Softball" };

export const KIND_WORDS: Readonly<Record<string, string>> = { root: "ask about it", intermediate: "a cause on the way", fault: "seen in the swing" };

export const FOCUS_WORDS: Readonly<Record<string, string>> = { external: "outside the body", mixed: "both", internal: "the body itself" };

export const MOVE_WORDS: Readonly<Record<string, string>> = { up: "goes up", down: "goes down", "toward-band": "moves toward its band" };

/** The states a proposal may be in, as the page's filter offers them. */
export const PROPOSAL_STATES = ["open", "approved", "declined", "withdrawn"] as const satisfies readonly ProposalState[];

export const STATE_WORDS: Readonly<Record<string, string>> = { open: "Open", approved: "Approved", declined: "Declined", withdrawn: "Taken back" };

const FIELD_WORDS: Readonly<Record<string, string>> = {
  name: "Name", purpose: "What it is for", steps: "Steps", cues: "Cues", equipment: "What one takes", space: "Room", dose: "How much", safety: "Care", minAge: "Youngest age",
  avoidIf: "Leave it if", avoidParts: "Not with a complaint of", maxSessionsPerWeek: "Most days a week", synonyms: "Also called", looks: "What it looks like",
  whyItHurts: "Why it hurts the swing", lookAlikes: "Look-alikes", playerWording: "As a player hears it", faults: "Helps with", gear: "Gear", sport: "Sport", setup: "Set-up",
  spaceM: "Room in metres", needsCage: "Needs a cage", partner: "Partner", partnerCount: "Other people", adult: "Adult", levels: "Levels", next: "Next drill",
  easier: "Easier drill", hardBalls: "Regulation balls", helmet: "Helmet", worked: "How to know it worked", id: "Short name", onlyFor: "Only for", requiresDrill: "Learned before",
};

/** A record's field as people say it. */
export const fieldWords = (field: string): string => FIELD_WORDS[field] ?? field;

/** A day (YYYY-MM-DD) as "25 November 2026". */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** "1 drill", "3 drills". */
export const countOf = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** How strongly one thing leads to another, in a word; a strength lies between 0 and 1. */
export function strengthWord(strength: number): string {
  if (strength >= 0.3) return "often";
  return strength >= WEAK_BELOW ? "sometimes" : "now and then";
}

/** Below this strength a link is drawn dotted. */
export const WEAK_BELOW = 0.15;
