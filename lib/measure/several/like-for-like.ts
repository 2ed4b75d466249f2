/** How a swing was taken: what must agree before two swings are compared. Closed lists of the library; unknown = "unknown". */
export interface SwingTaken {
  readonly playerId: string;
  readonly side: string;
  readonly swingKind: string;
  readonly task: string;
  readonly effort: string;
  readonly pitchHeight: string;
  readonly pitchSide: string;
  readonly pitchSpeed: string;
  readonly batClass: string;
  /** Left out where views are not compared. */
  readonly view?: string | null;
}

export type TakenFact = keyof SwingTaken;

/** One fact in which two swings differ, each in words for people. */
export interface Unlikeness {
  readonly fact: TakenFact;
  readonly theirs: string;
  readonly ours: string;
  /** The library's reason not to trust a comparison, where it has one for this fact. */
  readonly reasonId: "different-pitch" | "different-task" | null;
}

export interface Likeness {
  readonly isAlike: boolean;
  readonly unlike: readonly Unlikeness[];
  /** Facts that agree only in that nobody noted them. */
  readonly notNoted: readonly TakenFact[];
}

/** Facts without which nothing is ever compared, whatever the library's rule says. */
const ALWAYS: readonly TakenFact[] = ["playerId", "side"];

/**
 * Whether another swing may be compared with this one. A fact that is unknown on both agrees, and is said; unknown on
 * one of them it does not agree.
 * @param same the facts that must agree, from the library's rule
 */
export function likeForLike(theirs: SwingTaken, ours: SwingTaken, same: readonly TakenFact[]): Likeness {
  const facts = [...new Set([...ALWAYS, ...same])];
  const unlike = facts.filter((fact) => theirs[fact] !== ours[fact]).map((fact): Unlikeness => ({
    fact, theirs: factWords(fact, theirs[fact]), ours: factWords(fact, ours[fact]), reasonId: REASONS[fact] ?? null,
  }));
  const notNoted = facts.filter((fact) => theirs[fact] === ours[fact] && isNotNoted(ours[fact]));
  return { isAlike: unlike.length === 0, unlike, notNoted };
}

const isNotNoted = (answer: string | null | undefined) => answer === "unknown" || answer === null;

const REASONS: Partial<Record<TakenFact, Unlikeness["reasonId"]>> = {
  pitchHeight: "different-pitch", pitchSide: "different-pitch", pitchSpeed: "different-pitch", task: "different-task",
};

const WORDS: Record<TakenFact, Readonly<Record<string, string>>> = {
  playerId: {},
  side: { right: "from the right", left: "from the left" },
  swingKind: { power: "as a full swing", "two-strike": "as a two-strike swing", "running-slap": "as a running slap" },
  task: { dry: "without a ball", tee: "off a tee", toss: "at a tossed ball", machine: "off a machine", live: "at a pitch in practice", game: "in a game" },
  effort: { feel: "at half speed", practice: "at practice speed", game: "at full speed" },
  pitchHeight: { high: "at a high ball", belt: "at a belt-high ball", low: "at a low ball", unknown: "with the pitch height not noted" },
  pitchSide: { inside: "at an inside ball", middle: "at a ball down the middle", away: "at a ball away", unknown: "with the pitch side not noted" },
  pitchSpeed: { slow: "at a slow ball", game: "at a ball of game speed", fast: "at a fast ball", unknown: "with the pitch speed not noted" },
  batClass: { usual: "with the usual bat", lighter: "with a lighter bat", heavier: "with a heavier bat", shorter: "with a shorter bat", other: "with another bat" },
  view: { side: "filmed from the side", rear: "filmed from behind", front: "filmed from the front" },
};

/** What to call a fact that nobody noted. */
export const FACT_NAMES: Readonly<Record<TakenFact, string>> = {
  playerId: "player", side: "batting side", swingKind: "kind of swing", task: "task", effort: "effort", pitchHeight: "pitch height", pitchSide: "pitch side",
  pitchSpeed: "pitch speed", batClass: "bat", view: "view",
};

/** Those of a library's names that are facts of a swing; others are left out. */
export function takenFacts(names: readonly string[]): readonly TakenFact[] {
  return names.filter((name): name is TakenFact => Object.hasOwn(FACT_NAMES, name));
}

/** One fact in words for people: "off a tee". */
export function factWords(fact: TakenFact, answer: string | null | undefined): string {
  if (fact === "playerId") return "another player";
  return answer == null ? `${FACT_NAMES[fact]} not noted` : (WORDS[fact][answer] ?? answer);
}

/** "Off a tee before, at a tossed ball now"; "Another player" where that is the difference. */
export function beforeAndNow({ fact, theirs, ours }: Unlikeness): string {
  return capital(fact === "playerId" ? theirs : `${theirs} before, ${ours} now`);
}

/** "At a tossed ball, the first one off a tee"; "Another player" where that is the difference. */
export function besideWords({ fact, theirs, ours }: Unlikeness): string {
  return capital(fact === "playerId" ? theirs : `${theirs}, the first one ${ours}`);
}

/** What is said of every swing, and what only where it is out of the ordinary. */
const ORDINARY: Partial<Record<TakenFact, string>> = { swingKind: "power", batClass: "usual", pitchHeight: "unknown", pitchSide: "unknown" };

/** How a swing was taken: "off a tee, at a belt-high ball, at a ball down the middle". A fact that is not given is not said. */
export function takenWords(swing: Partial<SwingTaken>): string {
  const facts: readonly TakenFact[] = ["swingKind", "task", "pitchHeight", "pitchSide", "batClass"];
  return facts.filter((fact) => fact in swing && swing[fact] !== ORDINARY[fact]).map((fact) => factWords(fact, swing[fact])).join(", ");
}

/** First letter large, the rest as it is. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
