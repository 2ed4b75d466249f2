import { z } from "zod";
import type { Id } from "@/lib/core/ids";
import { clipAddress, markShapeForm } from "@/lib/domains/clips/schema";
import type { MarkShape } from "@/lib/domains/clips/view";
import type { LibraryForPlanning } from "@/lib/domains/library/view";
import type { Side } from "@/lib/domains/roster/rules";
import type { HomeView, PlayerFacts } from "@/lib/domains/roster/view";
import { gearNames } from "@/lib/prescribe/gear";
import { plannedSwings, swingsOf } from "@/lib/prescribe/swing-load";
import {
  cautionsOf, countedPlan, cueChoices, dayIn, drillRefusals, drillWords, noteWordCount, plannedWeek, remarksOn, sendProblems, swingRefusals,
  type CountedPlan, type CueChoice, type NotePart, type Planning, type Remark,
} from "./rules";
import { wordsOf } from "./schema";
import type { MarkedFrame, NoteRowForView, PlanRowForView } from "./scope";

export { wordsOf };

// ---- What the family sees ------------------------------------------------------------------------------------------

/** One drill of a plan, in the words it was sent with. */
export interface FamilyDrill {
  /** The drill's place in the plan: what a practice log names. */
  readonly id: Id;
  readonly name: string;
  readonly setup: string;
  readonly equipment: readonly string[];
  readonly space: string;
  readonly steps: readonly string[];
  readonly cue: string | null;
  readonly safety: readonly string[];
  readonly worked: string;
  readonly timesPerDay: number;
  readonly swingsPerDay: number;
  readonly minutesPerDay: number;
  /** On how many days a week at most; null when on every day of the plan. */
  readonly daysPerWeekMost: number | null;
  /** Whether it stands still while swings are paused: all but strength and mobility. */
  readonly stopsWhenPaused: boolean;
}

export interface FamilyPlan {
  readonly id: Id;
  readonly playerId: Id;
  readonly side: Side;
  readonly focusId: Id;
  readonly cue: string;
  readonly minutesPerDay: number;
  readonly daysPerWeek: number;
  readonly startsOn: string;
  readonly endsOn: string;
  readonly state: "draft" | "sent" | "ended";
  readonly drills: readonly FamilyDrill[];
  /** What is said once above all drills: circle, net, helmet, stop when it hurts. */
  readonly cautions: readonly string[];
}

/** A frame with what the coach drew on it, in pixels of the upright picture. */
export interface FamilyStill {
  readonly clipId: Id;
  readonly frameIndex: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly marks: readonly MarkShape[];
  /** Null while no consent for lessons is in force: then the picture is not shown. */
  readonly url: string | null;
}

/** A note as the family reads it. What only coaches see has no field here. */
export interface FamilyNote {
  readonly id: Id;
  readonly playerId: Id;
  readonly side: Side;
  readonly givenName: string;
  readonly academyName: string;
  readonly from: string;
  /** YYYY-MM-DD; today's for a draft. */
  readonly day: string;
  readonly isSent: boolean;
  readonly keptWell: string;
  readonly oneThing: string;
  readonly why: string;
  readonly cue: string;
  readonly forFamily: string;
  readonly nextCheckOn: string;
  readonly still: FamilyStill | null;
  readonly plan: FamilyPlan;
}

/** One note in a list. */
export interface SentNoteRow {
  readonly id: Id;
  readonly side: Side;
  readonly sentOn: string;
  readonly from: string;
  readonly keptWell: string;
  readonly oneThing: string;
  readonly cue: string;
  readonly isInForce: boolean;
}

export interface SentNotePage {
  readonly rows: readonly SentNoteRow[];
  readonly next: Id | null;
}

/** A plan that is in force with its note: what the portal's first page is made from. */
export interface SentPlanView {
  readonly note: FamilyNote;
  readonly plan: FamilyPlan;
}

// ---- What coaches see ----------------------------------------------------------------------------------------------

/** A note with both parts. */
export interface WholeNote {
  readonly note: FamilyNote;
  readonly privateWords: string;
}

/** A plan in force in one line, for lists of players. */
export interface HomeworkSummary {
  readonly planId: Id;
  readonly noteId: Id | null;
  readonly playerId: Id;
  readonly side: Side;
  readonly focusId: Id;
  readonly focusName: string;
  readonly cue: string;
  readonly startsOn: string;
  readonly endsOn: string;
  readonly daysPerWeek: number;
  readonly drills: readonly { readonly id: Id; readonly name: string; readonly timesPerDay: number; readonly swingsPerDay: number }[];
}

/** A drill that may be taken. */
export interface ProposedDrill {
  readonly id: string;
  readonly name: string;
  readonly why: string;
  readonly purpose: string;
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
  readonly drills: readonly DraftDrill[];
  readonly proposed: readonly ProposedDrill[];
  readonly leftOut: readonly { readonly name: string; readonly limits: readonly string[] }[];
  readonly swings: { readonly perDay: number; readonly perWeek: number; readonly mostPerDay: number; readonly mostPerWeek: number; readonly refusals: readonly string[] };
  readonly minutes: number;
  readonly cue: string;
  readonly cues: readonly CueChoice[];
  readonly words: Readonly<Record<NotePart, string>>;
  readonly wordCount: number;
  readonly remarks: readonly Remark[];
  readonly privateWords: string;
  readonly still: string;
  readonly stills: readonly StillChoice[];
  readonly letter: FamilyNote;
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
  readonly home: HomeView | null;
  /** The gear at home in words. */
  readonly gearNames: readonly string[];
  readonly gearItems: readonly { readonly id: string; readonly name: string }[];
  readonly foci: readonly { readonly id: Id; readonly name: string; readonly isChosen: boolean }[];
  /** Why the focus matters, in the library's words for coaches. */
  readonly focusWhy: string | null;
  readonly draft: DraftView | null;
  /** The note in force for the chosen focus. */
  readonly lastSent: { readonly noteId: Id; readonly on: string } | null;
}

// ---- Making them ---------------------------------------------------------------------------------------------------

const dayOf = (value: Date) => value.toISOString().slice(0, 10);

/** "Wednesday 9 December" */
export function longDay(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`)).replace(",", "");
}

export function familyPlan(row: PlanRowForView): FamilyPlan {
  const drills = row.drills.map((drill) => ({ drill, words: wordsOf(drill.words) }));
  return {
    id: row.id,
    playerId: row.playerId,
    side: row.side as Side,
    focusId: row.focusId,
    cue: row.cue,
    minutesPerDay: row.minutesPerDay,
    daysPerWeek: row.daysPerWeek,
    startsOn: dayOf(row.startsOn),
    endsOn: dayOf(row.endsOn),
    state: row.state as FamilyPlan["state"],
    drills: drills.map(({ drill, words }) => ({
      id: drill.id,
      name: words.name,
      setup: words.setup,
      equipment: words.equipment,
      space: words.space,
      steps: words.steps,
      cue: words.cue,
      safety: words.safety,
      worked: words.worked,
      timesPerDay: drill.timesPerDay,
      swingsPerDay: drill.swingsPerDay,
      minutesPerDay: drill.minutesPerDay,
      daysPerWeekMost: words.daysPerWeekMost !== null && words.daysPerWeekMost < row.daysPerWeek ? words.daysPerWeekMost : null,
      stopsWhenPaused: words.setup !== "strength" && words.setup !== "mobility",
    })),
    cautions: cautionsOf(drills.map(({ words }) => words)),
  };
}

const keptMarksForm = z.object({ v: z.literal(1), widthPx: z.number(), heightPx: z.number(), shapes: z.array(markShapeForm) });
/** The marks of a still as they are kept with a sent note, with the size of the picture they stand on. */
export type KeptMarks = z.infer<typeof keptMarksForm>;

function familyStill(row: NoteRowForView, marksNow: readonly MarkShape[] | null, today: string): FamilyStill | null {
  if (!row.clipId || row.frameIndex === null || !row.clip) return null;
  const kept = keptMarksForm.safeParse(row.marks).data;
  const isShown = row.battingSide.player.permits.some(({ validUntil }) => dayOf(validUntil) > today);
  const { widthPx, heightPx } = kept ?? row.clip.file;
  return {
    clipId: row.clipId,
    frameIndex: row.frameIndex,
    widthPx,
    heightPx,
    marks: marksNow ?? kept?.shapes ?? [],
    url: isShown ? clipAddress.still(row.clipId, row.frameIndex) : null,
  };
}

/** What a note is seen with: the day, who wrote it, and for a draft the marks as they stand on the frame now. */
export interface NoteSetting {
  readonly today: string;
  readonly timeZone: string;
  readonly academyName: string;
  readonly names: ReadonlyMap<Id, string>;
  readonly marksNow?: readonly MarkShape[];
}

/** The one way from a note's row to what the family reads: the preview and the portal both come from here. */
export function familyNote(row: NoteRowForView, setting: NoteSetting): FamilyNote {
  return {
    id: row.id,
    playerId: row.playerId,
    side: row.side as Side,
    givenName: row.battingSide.player.givenName,
    academyName: setting.academyName,
    from: setting.names.get(row.authorId) ?? "A coach",
    day: row.sentAt ? dayIn(row.sentAt, setting.timeZone) : setting.today,
    isSent: row.sentAt !== null,
    keptWell: row.keptWell,
    oneThing: row.oneThing,
    why: row.why,
    cue: row.cue,
    forFamily: row.forFamily,
    nextCheckOn: dayOf(row.nextCheckOn),
    still: familyStill(row, row.sentAt ? null : (setting.marksNow ?? []), setting.today),
    plan: familyPlan(row.plan),
  };
}

interface PageGiven {
  readonly facts: PlayerFacts;
  readonly name: string;
  readonly side: Side;
  readonly library: LibraryForPlanning;
  readonly foci: readonly { readonly id: Id; readonly faultId: string }[];
  readonly focus: { readonly id: Id; readonly faultId: string } | null;
}

/** The page before a draft is begun. */
export function planPage({ facts, name, side, library, foci, focus }: PageGiven): PlanPage {
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
    home: facts.home,
    gearNames: gearNames(facts.home?.gear ?? [], library.gear),
    gearItems: library.gear.items,
    foci: foci.map(({ id, faultId }) => ({ id, name: faultOf(faultId)?.name ?? faultId, isChosen: id === focus?.id })),
    focusWhy: (focus && faultOf(focus.faultId)?.whyItHurts) ?? null,
    draft: null,
    lastSent: null,
  };
}

interface DraftGiven {
  readonly row: NoteRowForView;
  readonly facts: PlayerFacts;
  readonly planning: Planning;
  readonly library: LibraryForPlanning;
  /** Other plans whose swings count towards the same caps. */
  readonly beside: readonly CountedPlan[];
  readonly stills: readonly MarkedFrame[];
  readonly setting: NoteSetting;
  readonly earlier: { readonly text: string; readonly from: string } | null;
  readonly receivers: readonly { readonly name: string; readonly isGuardian: boolean }[];
  readonly hasLeft: boolean;
  readonly privateWords: string;
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
  const [day] = plannedWeek(plans);
  const { total } = plannedSwings(plannedWeek(plans), planning.caps);
  const refusals = swingRefusals(plans, planning.caps);
  const inPlan = drills.map((drill) => ({ ...drill, name: wordsOf(drill.words).name, limits: drillRefusals(planning.choice, drill.drillId) }));
  const words = { keptWell: row.keptWell, oneThing: row.oneThing, why: row.why, cue: row.cue, forFamily: row.forFamily };
  const taken = new Set(drills.map(({ drillId }) => drillId));
  return {
    planId: row.plan.id,
    minutesPerDay: row.plan.minutesPerDay,
    daysPerWeek: row.plan.daysPerWeek,
    nextCheckOn: letter.nextCheckOn,
    drills: inPlan.map(({ drillId, name, why, timesPerDay, swingsPerDay, minutesPerDay, limits }) => ({ drillId, name, why, timesPerDay, swingsPerDay, minutesPerDay, limits })),
    proposed: planning.choice.allowed.filter(({ drill }) => !taken.has(drill.id)).map(({ drill, why }) => {
      const { sets, reps, fullSwings, minutes } = drill.dose;
      return { id: drill.id, name: drill.name, why, purpose: drill.purpose, times: sets * reps, swings: fullSwings, minutes };
    }),
    leftOut: planning.choice.leftOut.map(({ drill, limits }) => ({ name: drill.name, limits: limits.map((limit) => limit.words) })),
    swings: { perDay: day ? swingsOf(day.drills) : 0, perWeek: total, mostPerDay: planning.caps.homePerDay, mostPerWeek: planning.caps.perWeek, refusals },
    minutes: inPlan.reduce((sum, drill) => sum + drill.minutesPerDay, 0),
    cue: row.cue,
    cues: cueChoices(planning.fault, drills.flatMap(({ drillId }) => records.get(drillId) ?? []), given.earlier),
    words,
    wordCount: noteWordCount(words),
    remarks: remarksOn(words, planning.reader),
    privateWords: given.privateWords,
    still: row.clipId && row.frameIndex !== null ? `${row.clipId} ${row.frameIndex}` : "",
    stills: given.stills.map(({ clipId, frameIndex, filmedOn, view, swingId }) => ({
      value: `${clipId} ${frameIndex}`, url: clipAddress.still(clipId, frameIndex), words: `${longDay(dayOf(filmedOn))}, from the ${view}`, swingId,
    })),
    letter,
    receivers: given.receivers.map(({ name }) => name),
    notYet: sendProblems(
      {
        givenName: facts.givenName, isMinor: facts.isMinor, isPaused: facts.isPaused, hasLeft: given.hasLeft, isFocusActive: true, today: facts.today,
        nextCheckOn: letter.nextCheckOn, words, drills: inPlan, swingRefusals: refusals, receivers: given.receivers,
      },
      planning.reader,
    ),
  };
}
