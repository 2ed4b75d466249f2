import { z } from "zod";
import { dayIn, dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { clipAddress, markShapeForm } from "@/lib/domains/clips/schema";
import type { MarkedFrame, MarkShape } from "@/lib/domains/clips/view";
import type { Side } from "@/lib/domains/roster/rules";
import type { Scene } from "@/lib/prescribe/scene";
import type { PracticeOrder } from "@/lib/prescribe/week/request";
import { cautionsOf } from "./rules";
import { wordsOf } from "./schema";
import type { NoteRowForView, PlanRowForView } from "./scope";

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
  /** How it is set up, seen from above; null where it was not drawn yet. */
  readonly scene: Scene | null;
  readonly timesPerDay: number;
  readonly swingsPerDay: number;
  readonly minutesPerDay: number;
  /** On how many days a week at most; null when on every day of the plan. */
  readonly daysPerWeekMost: number | null;
  /** On which weekdays (1 = Monday); empty when on any day of the plan. */
  readonly weekdays: readonly number[];
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
  /** One drill after the other, or drills mixed. */
  readonly practiceOrder: PracticeOrder;
  readonly startsOn: string;
  readonly endsOn: string;
  readonly state: "draft" | "sent" | "ended";
  readonly drills: readonly FamilyDrill[];
  /** What is said once above all drills: circle, net, helmet, stop when it hurts. */
  readonly cautions: readonly string[];
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
  readonly still: MarkedFrame | null;
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

// ---- Making them ---------------------------------------------------------------------------------------------------

/** "Wednesday 9 December" */
export function longDay(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`)).replace(",", "");
}

/** Every text of a note that may be the library's own: what is looked for in the reader's language. */
export function textsOf({ oneThing, plan }: FamilyNote): readonly string[] {
  const ofDrills = plan.drills.flatMap(({ name, steps, cue, equipment, safety, worked }) => [name, ...steps, ...(cue ? [cue] : []), ...equipment, ...safety, worked]);
  return [...new Set([oneThing, ...ofDrills])];
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
    practiceOrder: row.practiceOrder as PracticeOrder,
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
      scene: words.scene,
      timesPerDay: drill.timesPerDay,
      swingsPerDay: drill.swingsPerDay,
      minutesPerDay: drill.minutesPerDay,
      daysPerWeekMost: words.daysPerWeekMost !== null && words.daysPerWeekMost < row.daysPerWeek ? words.daysPerWeekMost : null,
      weekdays: drill.weekdays,
      stopsWhenPaused: words.setup !== "strength" && words.setup !== "mobility",
    })),
    cautions: cautionsOf(drills.map(({ words }) => words)),
  };
}

const keptMarksForm = z.object({ v: z.literal(1), widthPx: z.number(), heightPx: z.number(), shapes: z.array(markShapeForm) });
/** The marks of a still as they are kept with a sent note, with the size of the picture they stand on. */
export type KeptMarks = z.infer<typeof keptMarksForm>;

function familyStill(row: NoteRowForView, marksNow: readonly MarkShape[] | null, today: string): MarkedFrame | null {
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
