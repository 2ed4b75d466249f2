import { daysBetween, CONSENT_MOST_DAYS, type Sport } from "@/lib/domains/roster/rules";
import { daysAfter } from "@/lib/core/days";

/** What the right to show a swing as a model rests on. */
export const RIGHT_BASES = ["written-consent", "own-consent", "licensed"] as const;
export type RightBasis = (typeof RIGHT_BASES)[number];
export const BASIS_WORDS: Readonly<Record<RightBasis, string>> = {
  "written-consent": "Own film, with written consent",
  "own-consent": "The hitter's own consent",
  licensed: "Licensed film",
};

/** Whether the hitter is grown: decides what is said beside a child. */
export const BODIES = ["growing", "grown"] as const;

export const SPORT_WORDS: Readonly<Record<Sport, string>> = { baseball: "baseball", softball: "softball" };

/** A right that rests on no consent lasts at most so many days before it is looked at again. */
const LICENCE_MOST_DAYS = 3650;

/** Why a right cannot be recorded like this, by field of the form; null when it can. `isMinor`: the hitter is under age today. */
export function rightProblem(right: { readonly rightBasis: RightBasis; readonly rightUntil: string }, today: string, isMinor: boolean): Readonly<Record<string, string>> | null {
  if (isMinor && right.rightBasis === "own-consent") return { rightBasis: "The hitter is not of age: the family's written consent is what it can rest on." };
  if (right.rightUntil <= today) return { rightUntil: `It must hold beyond today, ${today}.` };
  const most = right.rightBasis === "licensed" ? LICENCE_MOST_DAYS : CONSENT_MOST_DAYS;
  if (daysBetween(today, right.rightUntil) > most) return { rightUntil: `This right holds at most ${most} days: until ${daysAfter(today, most)} at the latest. Record it anew then.` };
  return null;
}

/** Why a label cannot be shown to others, as a sentence; null when it can. A name of three letters or more may not stand in it. */
export function labelProblem(label: string, hitter: { readonly givenName: string; readonly familyName: string }): string | null {
  const said = label.toLowerCase().split(/[^\p{L}\p{N}]+/u);
  const names = `${hitter.givenName} ${hitter.familyName}`.toLowerCase().split(/[^\p{L}\p{N}]+/u).filter((part) => part.length > 2);
  return names.some((name) => said.includes(name)) ? "This is the hitter's own name. Others see the label: make one up." : null;
}

/** A withdrawal can be undone for so long; later the right is recorded anew. */
export const UNDO_MINUTES = 60;

export function mayUndo(withdrawnAt: Date, at: Date): boolean {
  return at.getTime() - withdrawnAt.getTime() < UNDO_MINUTES * 60_000;
}

/** What becomes of a model today, and why it is not shown when it is not. */
export type ModelState = "shown" | "lapsed" | "no-lesson-consent" | "no-showing-consent" | "withdrawn";

interface Standing {
  readonly rightUntil: string;
  readonly isWithdrawn: boolean;
  /** Uses for which a consent of the hitter is in force. */
  readonly permittedUses: readonly string[];
}

/** A model is shown while its right holds, nobody withdrew it, and the hitter may be filmed and shown to coaches. */
export function modelState({ rightUntil, isWithdrawn, permittedUses }: Standing, today: string): ModelState {
  if (isWithdrawn) return "withdrawn";
  if (rightUntil <= today) return "lapsed";
  if (!permittedUses.includes("lesson")) return "no-lesson-consent";
  return permittedUses.includes("staff-training") ? "shown" : "no-showing-consent";
}

/** Uses for which a consent must be in force as long as a model is shown. */
export const NEEDED_USES = ["lesson", "staff-training"] as const;

/** Why a swing cannot be kept as a model now, and what to do; null when it can. */
export function keepHindrance(swing: { readonly playerName: string; readonly permittedUses: readonly string[]; readonly hasContact: boolean; readonly isKept: boolean }): string | null {
  const { playerName, permittedUses, hasContact, isKept } = swing;
  if (isKept) return "This swing is kept as a model already.";
  if (!permittedUses.includes("lesson")) return `No consent to film ${playerName} for lessons is in force. The family or the office can give one.`;
  if (!permittedUses.includes("staff-training")) {
    return `No consent to show clips of ${playerName} to coaches who do not teach ${playerName} is in force. The family or the office can give one.`;
  }
  return hasContact ? null : "Contact is not set on this swing yet, and a model is lined up by it. Set contact first.";
}
