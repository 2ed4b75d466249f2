import type { DrillRecord, FaultRecord, LibraryParts } from "@/lib/domains/library/schema";
import type { Side } from "@/lib/domains/roster/rules";
import type { HomeView, PlayerFacts } from "@/lib/domains/roster/view";
import { allowedDrills, type AllowedDrill, type LeftOutDrill } from "@/lib/prescribe/allowed-drills";
import { CAUTIONS, cautionsFor } from "@/lib/prescribe/cautions";
import type { DrillPlayer } from "@/lib/prescribe/drill";
import { sceneOf } from "@/lib/prescribe/scene";
import { swingCaps, type SwingCaps } from "@/lib/prescribe/swing-load";
import { wordsOf, type DrillWords } from "./schema";

// ---- Words for the family ------------------------------------------------------------------------------------------

export const MOST_NOTE_WORDS = 150;
/** Below this age a note holds no numbers. */
const NUMBERS_FROM_YEARS = 11;
const LONG_SENTENCE_WORDS = 25;

/** The parts of a note that the family reads. */
export interface NoteWords {
  readonly keptWell: string;
  readonly oneThing: string;
  readonly why: string;
  readonly cue: string;
  readonly forFamily: string;
}
export type NotePart = keyof NoteWords;

export const NOTE_PARTS = ["keptWell", "oneThing", "why", "cue", "forFamily"] as const satisfies readonly NotePart[];

/** Something to say about what was written, in one sentence. A hard one keeps the note from being kept and sent. */
export interface Remark {
  readonly part: NotePart;
  readonly words: string;
  readonly isHard: boolean;
}

/** Whom a note is about, as far as its words go. */
export interface NoteReader {
  readonly givenName: string;
  readonly ageYears: number;
  /** Names and synonyms of faults other than the one in focus. */
  readonly otherFaults: readonly string[];
}

const NEVER_WORDS =
  /\b(wrong(?:ly)?|bad(?:ly)?|worse|worst|fix(?:e[sd]|ing)?|scor(?:es?|ed|ing)|fault(?:s|y)?|mistakes?|errors?|fail(?:s|ed|ing|ure)?|lazy|clumsy|weak(?:er|est|ness)?|stupid|dumb|hopeless|terribl[ey]|awful(?:ly)?|poor(?:ly)?|ugly|useless|pathetic)\b/i;
const INJURY_NAMES =
  /\b(tend[io]n[io]tis|sprain(?:s|ed)?|strain(?:s|ed)?|fractur(?:es?|ed)|concussion|dislocat(?:ed|ion)|torn|ruptur(?:es?|ed)|hernia|bursitis|impingement|stress reaction|growth[- ]plate|little league (?:elbow|shoulder))\b/i;
const LIST_LINE = /^\s*(?:[-*•–]|\d+[.)])\s/m;
const TELLS_WHAT_NOT = /\b(?:don['’]?t|do not|never|stop)\b/i;

export function countWords(...texts: readonly string[]): number {
  return texts.join(" ").split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

export function noteWordCount(note: NoteWords): number {
  return countWords(...NOTE_PARTS.map((part) => note[part]));
}

function labelOf(text: string, givenName: string): string | null {
  const name = givenName.replace(/[^\p{L}\p{N}' -]/gu, "");
  const who = ["you", "he", "she", "they", ...(name ? [name] : [])].join("|");
  return new RegExp(`(?<![\\p{L}])(?:${who})(?:\\s+(?:are|is)|['’](?:re|s))\\s+(?:an?|too|not|never|always)\\s`, "iu").exec(text)?.[0].trim() ?? null;
}

function otherFaultsIn(text: string, names: readonly string[]): string[] {
  const low = text.toLowerCase();
  return names.filter((name) => low.includes(name.toLowerCase()));
}

/** What is to be said about one part; empty when nothing is. */
export function remarksOnPart(part: NotePart, text: string, reader: NoteReader): Remark[] {
  const remarks: Remark[] = [];
  const say = (isHard: boolean, words: string) => remarks.push({ part, words, isHard });
  const never = NEVER_WORDS.exec(text)?.[0];
  if (never) say(true, `“${never}” stays out of a note. Say what happened, or what to do.`);
  const injury = INJURY_NAMES.exec(text)?.[0];
  if (injury) say(true, `“${injury}” is for a licensed clinician to say. Name the part of the body only.`);
  const label = labelOf(text, reader.givenName);
  if (label) say(true, `“${label} …” names the person. Say what the swing does.`);
  if (LIST_LINE.test(text)) say(true, "A note is about one thing. Write sentences, no list.");
  if (reader.ageYears < NUMBERS_FROM_YEARS && /\d/.test(text)) {
    say(true, `No numbers for a player under ${NUMBERS_FROM_YEARS}. Write them as words, or leave them out.`);
  }
  const others = otherFaultsIn(text, reader.otherFaults);
  if (others.length > 1) say(true, `This speaks of “${others[0]}” and “${others[1]}” too. One thing is enough.`);
  if (part !== "forFamily" && TELLS_WHAT_NOT.test(text)) say(false, "This says what not to do. What to do is easier to follow.");
  if (text.split(/[.!?]+/).some((sentence) => countWords(sentence) > LONG_SENTENCE_WORDS)) say(false, "One sentence is long. Two short ones are read more easily.");
  return remarks;
}

/** What is to be said about a whole note, part by part. */
export function remarksOn(note: NoteWords, reader: NoteReader): Remark[] {
  const remarks = NOTE_PARTS.flatMap((part) => remarksOnPart(part, note[part], reader));
  const count = noteWordCount(note);
  if (count > MOST_NOTE_WORDS) {
    remarks.push({ part: "forFamily", isHard: true, words: `The note has ${count} words. ${MOST_NOTE_WORDS} is the most that is read at home.` });
  }
  return remarks;
}

const MISSING: readonly (readonly [NotePart, string])[] = [
  ["keptWell", "Say first what was kept well."],
  ["oneThing", "Say the one thing to work on."],
  ["why", "Say why, in one sentence."],
  ["cue", "Choose a cue."],
];

/** What a note still lacks before it can be sent, first things first. */
export function missingParts(note: NoteWords): { readonly part: NotePart; readonly words: string }[] {
  return MISSING.flatMap(([part, words]) => (note[part] === "" ? [{ part, words }] : []));
}

// ---- Choosing drills -----------------------------------------------------------------------------------------------

/** More drills than these are not done at home. */
export const MOST_DRILLS = 5;
/** A plan runs to the next check, two weeks unless said otherwise, eight at most. */
export const PLAN_DAYS = 14;
export const PLAN_MOST_DAYS = 56;

/** The player as drills see one on a side, with what is at home. No drill counts as learned before its log says so. */
export function drillPlayer(facts: PlayerFacts, home: HomeView, side: Side, causesWorkedOn: readonly string[]): DrillPlayer {
  const { ageYears, level, sport, complaints, isPaused, givenName } = facts;
  const { gear, widthM, lengthM, hasCage, partnerCount, adult } = home;
  return {
    firstName: givenName, ageYears, level, sport, complaints, isPaused, gear, partnerCount, adult, causesWorkedOn, learnedDrills: [],
    isSlapper: facts.sides.some((known) => known.side === side && known.isSlapper),
    space: { widthM, lengthM, hasCage },
    season: facts.season?.season,
  };
}

export interface DrillChoice {
  readonly allowed: readonly AllowedDrill<DrillRecord>[];
  readonly leftOut: readonly LeftOutDrill<DrillRecord>[];
}

export interface DrillSource {
  readonly drills: readonly DrillRecord[];
  readonly gear: LibraryParts["gear"];
  readonly loads: LibraryParts["loads"];
}

/** The drills that serve the focus: those the player may do, and those a hard limit leaves out. */
export function chooseDrills(source: DrillSource, player: DrillPlayer, faultId: string): DrillChoice {
  return allowedDrills(source.drills, player, [faultId], source.gear);
}

/** Why a drill may not stand in the plan, as sentences; empty when it may. */
export function drillRefusals(choice: DrillChoice, drillId: string): string[] {
  if (choice.allowed.some(({ drill }) => drill.id === drillId)) return [];
  const left = choice.leftOut.find(({ drill }) => drill.id === drillId);
  if (!left) return ["This drill does not work on what is in focus."];
  return left.limits.map(({ words }) => words);
}

/** The same for a drill that stands in a draft: one that the library has retired since is said as such. */
export function drillLimits(source: { readonly drills: readonly { readonly id: string }[] }, choice: DrillChoice, drillId: string): string[] {
  if (!source.drills.some(({ id }) => id === drillId)) return ["The library has retired this drill since."];
  return drillRefusals(choice, drillId);
}

/** Full swings of so many times, by what the library counts for a drill; never fewer than the share of its own dose. */
export function swingsFor(drill: Pick<DrillRecord, "dose">, times: number): number {
  const { sets, reps, fullSwings } = drill.dose;
  return Math.ceil((times * fullSwings) / (sets * reps));
}

/** One drill of a plan as far as counting goes. */
export interface CountedDrill {
  readonly name: string;
  readonly timesPerDay: number;
  readonly swingsPerDay: number;
  readonly minutesPerDay: number;
  readonly daysPerWeekMost: number | null;
  /** 1 = Monday; empty when nobody said on which days. */
  readonly weekdays: readonly number[];
}

export interface CountedPlan {
  readonly daysPerWeek: number;
  readonly drills: readonly CountedDrill[];
}

/** Plans as the swing caps count them. */
export function countedPlan(plan: { readonly daysPerWeek: number; readonly drills: readonly { words: unknown; timesPerDay: number; swingsPerDay: number; minutesPerDay: number; weekdays: readonly number[] }[] }): CountedPlan {
  return {
    daysPerWeek: plan.daysPerWeek,
    drills: plan.drills.map(({ words, timesPerDay, swingsPerDay, minutesPerDay, weekdays }) => {
      const { name, daysPerWeekMost } = wordsOf(words);
      return { name, daysPerWeekMost, timesPerDay, swingsPerDay, minutesPerDay, weekdays };
    }),
  };
}

/** Caps of the player today; 0 while swings are paused. */
export function capsOf(facts: PlayerFacts, loads: LibraryParts["loads"]): SwingCaps {
  return swingCaps(facts.level, facts.ageYears, loads.swings, facts.isPaused);
}

function drawnScene(drill: DrillRecord): DrillWords["scene"] {
  const scene = sceneOf(drill);
  return { ...scene, props: [...scene.props] };
}

/** A drill's words as they stand in a plan, with the cautions that hold for this player. */
export function drillWords(drill: DrillRecord, player: DrillPlayer): DrillWords {
  return {
    v: 1,
    name: drill.name,
    setup: drill.setup,
    equipment: drill.equipment,
    space: drill.space,
    steps: drill.steps,
    cue: drill.cues[0]?.text ?? null,
    safety: drill.safety,
    cautions: cautionsFor([drill], player.ageYears, player.gear).map(({ words }) => words),
    worked: drill.worked.observe,
    daysPerWeekMost: drill.maxSessionsPerWeek ?? null,
    scene: drawnScene(drill),
  };
}

/** The cautions of several drills, each once, in the order in which they are said. */
export function cautionsOf(drills: readonly Pick<DrillWords, "cautions">[]): string[] {
  const said = new Set(drills.flatMap(({ cautions }) => cautions));
  const known: readonly string[] = Object.values(CAUTIONS);
  return [...known.filter((words) => said.has(words)), ...[...said].filter((words) => !known.includes(words))];
}

/** A cue that can be chosen, and where it comes from in words. */
export interface CueChoice {
  readonly text: string;
  readonly from: string | null;
}

/** Cues to choose from: the one this player had last first, then the fault's, then those of the drills in the plan. */
export function cueChoices(
  fault: { readonly cues: readonly { readonly text: string }[] } | null,
  drills: readonly Pick<DrillRecord, "name" | "cues">[],
  earlier: { readonly text: string; readonly from: string } | null,
): CueChoice[] {
  const all: CueChoice[] = [
    ...(earlier ? [earlier] : []),
    ...(fault?.cues ?? []).map(({ text }) => ({ text, from: null })),
    ...drills.flatMap(({ name, cues }) => cues.map(({ text }) => ({ text, from: name }))),
  ];
  return all.filter((one, index) => all.findIndex(({ text }) => text === one.text) === index);
}

// ---- One plan in the making ----------------------------------------------------------------------------------------

export interface PlanSource extends DrillSource {
  readonly faults: readonly FaultRecord[];
}

/** All that decides what may stand in a plan today. */
export interface Planning {
  readonly player: DrillPlayer;
  readonly choice: DrillChoice;
  readonly caps: SwingCaps;
  readonly fault: FaultRecord | null;
  readonly reader: NoteReader;
}

export function planningFor(source: PlanSource, facts: PlayerFacts, home: HomeView, side: Side, causesWorkedOn: readonly string[], faultId: string): Planning {
  const player = drillPlayer(facts, home, side, causesWorkedOn);
  const otherFaults = source.faults.filter(({ id }) => id !== faultId).map(({ name }) => name);
  return {
    player,
    choice: chooseDrills(source, player, faultId),
    caps: capsOf(facts, source.loads),
    fault: source.faults.find(({ id }) => id === faultId) ?? null,
    reader: { givenName: facts.givenName, ageYears: facts.ageYears, otherFaults },
  };
}

/** A draft as it stands, with everything that bears on sending it. */
export interface ReadyToSend {
  readonly givenName: string;
  readonly isMinor: boolean;
  readonly isPaused: boolean;
  readonly hasLeft: boolean;
  readonly isFocusActive: boolean;
  /** Why the season lets this focus wait; null when it may be worked on. */
  readonly seasonRefusal: string | null;
  /** Whether it is known what a usual week brings elsewhere. */
  readonly isElsewhereKnown: boolean;
  readonly today: string;
  readonly nextCheckOn: string;
  readonly words: NoteWords;
  readonly drills: readonly { readonly name: string; readonly limits: readonly string[] }[];
  readonly swingRefusals: readonly string[];
  readonly receivers: readonly { readonly isGuardian: boolean }[];
}

/** What stands in the way of sending a draft, first things first; empty when it may be sent. */
export function sendProblems(draft: ReadyToSend, reader: NoteReader): string[] {
  const { givenName } = draft;
  const problems: string[] = [];
  if (draft.hasLeft) problems.push(`${givenName} has left the academy.`);
  if (!draft.isFocusActive) problems.push("A note needs a focus. This one is no longer in focus.");
  if (draft.seasonRefusal) problems.push(draft.seasonRefusal);
  if (draft.isMinor && !draft.receivers.some(({ isGuardian }) => isGuardian)) {
    problems.push(`${givenName} is a minor and has no guardian here. Nothing goes to a child alone; the office adds a guardian first.`);
  } else if (draft.receivers.length === 0) {
    problems.push(`Nobody would get this: ${givenName} has no sign-in yet. The office can invite ${givenName}.`);
  }
  for (const { name, limits } of draft.drills) if (limits.length > 0) problems.push(`“${name}” has to come out. ${limits.join(" ")}`);
  if (!draft.isElsewhereKnown && !draft.isPaused) problems.push("First say what swings a usual week brings elsewhere: team, lessons and games.");
  problems.push(...draft.swingRefusals);
  if (draft.drills.length === 0 && !draft.isPaused) problems.push("Take at least one drill.");
  if (draft.nextCheckOn <= draft.today) problems.push("The next check has to lie after today.");
  problems.push(...missingParts(draft.words).map(({ words }) => words));
  problems.push(...remarksOn(draft.words, reader).filter(({ isHard }) => isHard).map(({ words }) => words));
  return problems;
}
