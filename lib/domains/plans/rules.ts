import type { DrillRecord, FaultRecord, LibraryParts } from "@/lib/domains/library/schema";
import type { Side } from "@/lib/domains/roster/rules";
import type { HomeView, PlayerFacts } from "@/lib/domains/roster/view";
import { allowedDrills, type AllowedDrill, type LeftOutDrill } from "@/lib/prescribe/allowed-drills";
import { CAUTIONS, cautionsFor } from "@/lib/prescribe/cautions";
import type { DrillPlayer, KeptDrill } from "@/lib/prescribe/drill";
import { sceneOf } from "@/lib/prescribe/scene";
import { beyondKept } from "@/lib/prescribe/season";
import { swingCaps, type SwingCaps } from "@/lib/prescribe/swing-load";
import { wordsOf, type DrillWords } from "./schema";
import { missingParts, remarksOn, type NoteReader, type NoteWords } from "@/lib/prescribe/wording";

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

/** On how many days a week a drill of a plan is done at most. */
export const daysOfDrill = ({ weekdays }: { readonly weekdays: readonly number[] }, daysPerWeek: number, most = 7): number => weekdays.length || Math.min(daysPerWeek, most);

/** Why a drill of a draft may not be sent as it stands: the drill itself, or a larger dose than the season lets it have. */
export function draftLimits(source: DrillSource, { choice, player }: Pick<Planning, "choice" | "player">, daysPerWeek: number, drill: Omit<KeptDrill, "daysPerWeek"> & { readonly weekdays: readonly number[] }): string[] {
  const most = source.drills.find(({ id }) => id === drill.drillId)?.maxSessionsPerWeek;
  const beyond = beyondKept({ ...drill, daysPerWeek: daysOfDrill(drill, daysPerWeek, most) }, player);
  return [...drillLimits(source, choice, drill.drillId), ...(beyond ? [beyond] : [])];
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

export function planningFor(source: PlanSource, facts: PlayerFacts, home: HomeView, side: Side, causesWorkedOn: readonly string[], faultId: string, kept?: readonly KeptDrill[]): Planning {
  const player = { ...drillPlayer(facts, home, side, causesWorkedOn), keptDrills: kept };
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
