import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { clipAddress } from "@/lib/domains/clips/schema";
import type { LibraryForPlanning } from "@/lib/domains/library/view";
import type { Side } from "@/lib/domains/roster/rules";
import { SEASON_WORDS } from "@/lib/domains/roster/seasons/rules";
import type { HomeView, PlayerFacts } from "@/lib/domains/roster/view";
import { fieldCautions, type FieldCaution } from "@/lib/prescribe/field-cautions";
import { gearNames } from "@/lib/prescribe/gear";
import { mostAfter, plannedSwings } from "@/lib/prescribe/swing-load";
import {
  countedPlan, cueChoices, draftLimits, drillWords, sendProblems,
  type CountedPlan, type CueChoice, type Planning,
} from "../rules";
import { elsewhereOf, elsewhereWords, weekdayWords, type SourceView } from "@/lib/domains/roster/loads/view";
import { elsewhereOn, WEEKDAYS, type PracticeOrder } from "@/lib/prescribe/week/request";
import { notTaken } from "@/lib/prescribe/week/week-words";
import { wordsOf } from "../schema";
import type { MarkedFrame, NoteRowForView } from "../scope";
import type { NotePart, NoteReader } from "@/lib/prescribe/wording";
import { familyNote, longDay, type FamilyNote, type NoteSetting } from "../view";
import { draftSeen, growthWords, letterSeen, plannedWeek, swingRefusals, weekRequest } from "../week/rules";

/** A drill that may be taken. */
export interface ProposedDrill {
  readonly id: string;
  readonly name: string;
  readonly why: string;
  readonly purpose: string;
  /** Which limit of the week keeps it out as the plan stands; null when it would fit. */
  readonly notFor: string | null;
  readonly times: number;
  readonly swings: number;
  readonly minutes: number;
}

/** A drill of the draft; `limits` says why it may not stay, and is empty as long as it may. */
export interface DraftDrill {
  readonly drillId: string;
  readonly name: string;
  readonly why: string;
  readonly timesPerDay: number;
  readonly swingsPerDay: number;
  readonly minutesPerDay: number;
  readonly weekdays: readonly number[];
  /** "Monday and Thursday"; empty when on any day of the plan. */
  readonly dayWords: string;
  readonly limits: readonly string[];
}

export interface StillChoice {
  /** What the form sends: clip and frame. */
  readonly value: string;
  readonly url: string;
  readonly words: string;
  readonly swingId: Id;
}

export interface DraftView {
  readonly planId: Id;
  readonly minutesPerDay: number;
  readonly daysPerWeek: number;
  readonly nextCheckOn: string;
  readonly practiceOrder: PracticeOrder;
  readonly drills: readonly DraftDrill[];
  /** What this page shows of the drills, to be sent back when they are replaced. */
  readonly seen: string;
  readonly proposed: readonly ProposedDrill[];
  /** What the season lets this focus have; null where it lets it have any. */
  readonly keeps: string | null;
  readonly leftOut: readonly { readonly name: string; readonly limits: readonly string[] }[];
  readonly swings: { readonly perDay: number; readonly perWeek: number; readonly mostPerDay: number; readonly mostPerWeek: number; readonly refusals: readonly string[]; readonly growth: string | null };
  readonly minutes: number;
  /** Thunder, heat, pitching: what is said of the place for the drills of the draft. */
  readonly fieldCautions: readonly FieldCaution[];
  readonly cue: string;
  readonly cues: readonly CueChoice[];
  readonly words: Readonly<Record<NotePart, string>>;
  /** Who wrote the family's part last, and the staff's; null before anybody did. */
  readonly writtenBy: string | null;
  readonly privateBy: string | null;
  /** Whom the note is about, for what is said of its words. */
  readonly reader: NoteReader;
  readonly privateWords: string;
  readonly still: string;
  readonly stills: readonly StillChoice[];
  readonly letter: FamilyNote;
  /** What the letter shows, to be sent back with the press that sends it. */
  readonly letterSeen: string;
  readonly receivers: readonly string[];
  /** What stands in the way of sending, first things first; empty when it may be sent. */
  readonly notYet: readonly string[];
}

export interface PlanPage {
  readonly playerId: Id;
  readonly name: string;
  readonly givenName: string;
  readonly ageYears: number;
  readonly side: Side;
  readonly sides: readonly Side[];
  readonly isPaused: boolean;
  readonly complaints: readonly string[];
  /** The part of the year in words, null while nobody said; and why it lets the chosen focus wait. */
  readonly season: { readonly words: string | null; readonly refusal: string | null };
  readonly home: HomeView | null;
  /** The gear at home in words. */
  readonly gearNames: readonly string[];
  readonly gearItems: readonly { readonly id: string; readonly name: string }[];
  readonly foci: readonly { readonly id: Id; readonly name: string; readonly isChosen: boolean }[];
  /** Why the focus matters, in the library's words for coaches. */
  readonly focusWhy: string | null;
  /** Swings of a usual week outside homework. */
  readonly elsewhere: { readonly sources: readonly SourceView[]; readonly words: string; readonly isKnown: boolean };
  readonly draft: DraftView | null;
  /** The note in force for the chosen focus. */
  readonly lastSent: { readonly noteId: Id; readonly on: string } | null;
}

interface PageGiven {
  readonly facts: PlayerFacts;
  readonly name: string;
  readonly side: Side;
  readonly library: LibraryForPlanning;
  readonly sources: readonly SourceView[];
  readonly foci: readonly { readonly id: Id; readonly faultId: string }[];
  readonly focus: { readonly id: Id; readonly faultId: string } | null;
  readonly seasonRefusal: string | null;
}

/** The page before a draft is begun. */
export function planPage({ facts, name, side, library, sources, foci, focus, seasonRefusal }: PageGiven): PlanPage {
  const faultOf = (faultId: string) => library.faults.find(({ id }) => id === faultId);
  return {
    playerId: facts.playerId,
    name,
    givenName: facts.givenName,
    ageYears: facts.ageYears,
    side,
    sides: facts.sides.map((known) => known.side),
    isPaused: facts.isPaused,
    complaints: facts.complaints,
    season: { words: facts.season && SEASON_WORDS[facts.season.season], refusal: seasonRefusal },
    home: facts.home,
    gearNames: gearNames(facts.home?.gear ?? [], library.gear),
    gearItems: library.gear.items,
    foci: foci.map(({ id, faultId }) => ({ id, name: faultOf(faultId)?.name ?? faultId, isChosen: id === focus?.id })),
    focusWhy: (focus && faultOf(focus.faultId)?.whyItHurts) ?? null,
    elsewhere: { sources, words: elsewhereWords(sources), isKnown: elsewhereOf(sources) !== null },
    draft: null,
    lastSent: null,
  };
}

const KEEPS = "In season this focus keeps the drills it had before, with no larger dose. The head coach may agree otherwise, with a reason.";

interface DraftGiven {
  readonly row: NoteRowForView;
  readonly facts: PlayerFacts;
  readonly planning: Planning;
  readonly library: LibraryForPlanning;
  /** Other plans whose swings count towards the same caps. */
  readonly beside: readonly CountedPlan[];
  readonly sources: readonly SourceView[];
  readonly stills: readonly MarkedFrame[];
  readonly setting: NoteSetting;
  readonly earlier: { readonly text: string; readonly from: string } | null;
  readonly receivers: readonly { readonly name: string; readonly isGuardian: boolean }[];
  readonly hasLeft: boolean;
  readonly seasonRefusal: string | null;
  /** Full swings of the last seven days, of all sources. */
  readonly lastWeek: number;
  readonly privateWords: string;
  readonly privateById: Id | null;
}

/** A draft as the coach sees it: the words of its drills are those of today's library, as they would be sent. */
export function draftView(given: DraftGiven): DraftView {
  const { facts, planning, library, setting } = given;
  const records = new Map(library.drills.map((drill) => [drill.id, drill]));
  const drills = given.row.plan.drills.map((drill) => {
    const record = records.get(drill.drillId);
    return { ...drill, words: record ? drillWords(record, planning.player) : drill.words };
  });
  const row = { ...given.row, plan: { ...given.row.plan, drills } };
  const letter = familyNote(row, setting);
  const own = countedPlan(row.plan);
  const plans = [own, ...given.beside];
  const elsewhere = elsewhereOf(given.sources);
  const { byDay, total } = plannedSwings(plannedWeek(plans), planning.caps);
  const others = WEEKDAYS.reduce((sum, weekday) => sum + elsewhereOn(elsewhere ?? [], weekday), 0);
  const refusals = swingRefusals(plans, planning.caps, elsewhere ?? []);
  const { minutesPerDay, daysPerWeek } = row.plan;
  const { growthPerWeekPercent } = library.loads.swings;
  const mostInWeek = mostAfter(given.lastWeek, planning.caps, growthPerWeekPercent);
  const order = row.plan.practiceOrder as PracticeOrder;
  const request = weekRequest({ ...planning, mostInWeek, minutesPerDay, daysPerWeek, order, elsewhere: elsewhere ?? [], beside: given.beside });
  const everyDay = WEEKDAYS.slice(0, daysPerWeek);
  const standing = request.candidates.flatMap((candidate) => {
    const taken = row.plan.drills.find(({ drillId }) => drillId === candidate.drill.id);
    return taken ? [{ candidate, weekdays: taken.weekdays.length > 0 ? taken.weekdays : everyDay, kind: "between" as const }] : [];
  });
  const keptOut = new Map(notTaken(request, { drills: standing }).map(({ drill, words }) => [drill.id, words]));
  const inPlan = drills.map((drill) => ({ ...drill, name: wordsOf(drill.words).name, limits: draftLimits(library, planning, row.plan.daysPerWeek, drill) }));
  const words = { keptWell: row.keptWell, oneThing: row.oneThing, why: row.why, cue: row.cue, forFamily: row.forFamily };
  const taken = new Set(drills.map(({ drillId }) => drillId));
  return {
    planId: row.plan.id,
    minutesPerDay,
    daysPerWeek,
    nextCheckOn: letter.nextCheckOn,
    practiceOrder: order,
    seen: draftSeen(drills),
    drills: inPlan.map(({ drillId, name, why, timesPerDay, swingsPerDay, minutesPerDay: minutes, weekdays, limits }) => ({
      drillId, name, why, timesPerDay, swingsPerDay, minutesPerDay: minutes, weekdays, dayWords: weekdayWords(weekdays), limits,
    })),
    proposed: planning.choice.allowed.filter(({ drill }) => !taken.has(drill.id)).map(({ drill, why }) => {
      const { sets, reps, fullSwings, minutes } = drill.dose;
      return { id: drill.id, name: drill.name, why, purpose: drill.purpose, notFor: keptOut.get(drill.id) ?? null, times: sets * reps, swings: fullSwings, minutes };
    }),
    keeps: planning.player.keptDrills ? KEEPS : null,
    leftOut: planning.choice.leftOut.map(({ drill, limits }) => ({ name: drill.name, limits: limits.map((limit) => limit.words) })),
    swings: { perDay: Math.max(0, ...byDay.map(({ swings }) => swings)), perWeek: total + others, mostPerDay: planning.caps.homePerDay, mostPerWeek: planning.caps.perWeek, refusals, growth: growthWords(total + others, given.lastWeek, mostInWeek, growthPerWeekPercent) },
    minutes: inPlan.reduce((sum, drill) => sum + drill.minutesPerDay, 0),
    fieldCautions: fieldCautions(letter.plan.drills.map(({ setup }) => setup), facts.ageYears, library.loads),
    cue: row.cue,
    cues: cueChoices(planning.fault, drills.flatMap(({ drillId }) => records.get(drillId) ?? []), given.earlier),
    words,
    writtenBy: (given.row.wordsById && setting.names.get(given.row.wordsById)) ?? null,
    privateBy: (given.privateById && setting.names.get(given.privateById)) ?? null,
    reader: planning.reader,
    privateWords: given.privateWords,
    still: row.clipId && row.frameIndex !== null ? `${row.clipId} ${row.frameIndex}` : "",
    stills: given.stills.map(({ clipId, frameIndex, filmedOn, view, swingId }) => ({
      value: `${clipId} ${frameIndex}`, url: clipAddress.still(clipId, frameIndex), words: `${longDay(dayOf(filmedOn))}, from the ${view}`, swingId,
    })),
    letter,
    letterSeen: letterSeen(given.row),
    receivers: given.receivers.map(({ name }) => name),
    notYet: sendProblems(
      {
        givenName: facts.givenName, isMinor: facts.isMinor, isPaused: facts.isPaused, hasLeft: given.hasLeft, isFocusActive: true, seasonRefusal: given.seasonRefusal, isElsewhereKnown: elsewhere !== null, today: facts.today,
        nextCheckOn: letter.nextCheckOn, words, drills: inPlan, swingRefusals: refusals, receivers: given.receivers,
      },
      planning.reader,
    ),
  };
}
