import type { Id } from "@/lib/core/ids";
import type { LibraryParts } from "@/lib/domains/library/schema";
import type { Side } from "@/lib/domains/roster/rules";
import { readingWords } from "@/lib/measure/reading-words";
import type { FaultReadings } from "@/lib/reason/reading-evidence";
import type { Sight } from "@/lib/reason/types";
import type { AnswerGivenView, QuestionView } from "./asking/view";
import { countOf, faultsFor, proposalOf, termOf, type FaultCount } from "./rules";
import type { ClickedRow, FocusRow, RankingLibrary, SideEvidence, StoredReading, SwingRow } from "./scope";
import type { SeasonStanding } from "./season/view";
import type { SymptomView } from "./tally/view";
import type { CandidateView } from "./working-out/view";

/** A still: a frame of a clip. */
export interface StillView {
  readonly clipId: Id;
  readonly frameIndex: number;
}

/** A swing among those that are looked at together. */
export interface SwingChoiceView {
  readonly id: Id;
  readonly filmedOn: string;
  readonly views: readonly string[];
  readonly isInHand: boolean;
}

/** A reading beside a fault, words first. */
export interface ReadingBesideView {
  readonly checkpointId: string;
  readonly name: string;
  readonly words: string;
  readonly number: string | null;
  readonly why: readonly string[];
  readonly verdict: "fine" | "watch" | "talk-about" | "cannot-tell" | null;
  readonly size: "small" | "clear" | "large" | null;
}

/** One thing that can be seen in a swing, with who called it what. */
export interface CallRowView {
  readonly faultId: string;
  readonly name: string;
  /** What it looks like from the views there are. */
  readonly look: string;
  /** This coach's own call on the swing in hand. */
  readonly ownCall: Sight | null;
  /** Calls of other coaches on the swing in hand. */
  readonly otherCalls: readonly { readonly by: string; readonly state: Sight }[];
  /** Over all swings that are looked at together. */
  readonly count: { readonly seen: number; readonly judged: number; readonly notVisible: number };
  readonly settledAs: Sight | null;
  readonly readings: readonly ReadingBesideView[];
  readonly proposal: "seen" | "not-seen" | null;
  readonly still: StillView | null;
}

export interface CallSectionView {
  readonly id: string;
  readonly question: string;
  /** Called by somebody, or a reading speaks of it. */
  readonly rows: readonly CallRowView[];
  /** Nobody has called these and no reading speaks of them: not looked at yet. Empty where they are shown on demand only. */
  readonly others: readonly CallRowView[];
  readonly otherCount: number;
}

/** A cause that is no homework: asked before anything is chosen. */
export interface AskFirstView {
  readonly nodeId: string;
  readonly name: string;
  /** In words for the player or family, where the library has them. */
  readonly question: string | null;
  readonly howToCheck: string;
  readonly firstAction: string;
  readonly answer: "yes" | "no" | "not-asked";
}

export interface OverruledView {
  readonly id: Id;
  readonly faultId: string;
  readonly name: string;
  readonly reason: string;
  readonly by: string;
  readonly on: string;
}

export interface FocusView {
  readonly id: Id;
  readonly faultId: string;
  readonly name: string;
  readonly since: string;
  readonly isParked: boolean;
  /** The words that clicked for this player, else the first cue of the library; a plan's own cue stands before it. */
  readonly cue: string | null;
  readonly hasClicked: boolean;
  /** What can be chosen as the words that clicked. */
  readonly cues: readonly string[];
}

export interface FocusPairView {
  readonly active: readonly FocusView[];
  readonly parked: readonly FocusView[];
}

/** Whether the first stays first when the guesses behind it are shaken. */
export interface SteadinessView {
  readonly isSteady: boolean;
  /** "Sometimes “…” stands first instead." */
  readonly instead: string | null;
}

export interface WhatFirstView {
  readonly playerId: Id;
  readonly name: string;
  readonly givenName: string;
  readonly side: Side;
  readonly sides: readonly Side[];
  readonly editionNumber: number;
  readonly swings: readonly SwingChoiceView[];
  /** "Three swings off a tee, 25 November"; null without a swing. */
  readonly swingWords: string | null;
  readonly swingInHandId: Id | null;
  readonly sections: readonly CallSectionView[];
  /** All that is looked for from this side. */
  readonly faults: readonly { readonly faultId: string; readonly name: string }[];
  /** Whether anything at all is known: a call, a reading or an answer. */
  readonly isAnythingKnown: boolean;
  readonly standing: "ranked" | "not-enough" | "too-wide" | "impossible";
  /** What contradicts each other under the library, by name. */
  readonly impossible: readonly string[];
  /** Faults whose calls count no more, since the library retired them. */
  readonly retired: readonly string[];
  /** Kinds of swing this side has on film, newest first; evidence of two kinds is not mixed. */
  readonly kinds: readonly { readonly id: string; readonly words: string; readonly isInHand: boolean }[];
  /** In hundredths, how far off a likelihood may be; null when the order is exact. */
  readonly sampledError: number | null;
  readonly steadiness: SteadinessView | null;
  /** A mark of what the worker has yet to work out; null when all is there. */
  readonly workDue: string | null;
  readonly question: QuestionView | null;
  readonly answers: readonly AnswerGivenView[];
  readonly symptoms: readonly SymptomView[];
  /** Coaches who called something on the swing in hand. */
  readonly coachCount: number;
  readonly askFirst: readonly AskFirstView[];
  readonly answered: readonly AskFirstView[];
  readonly candidates: readonly CandidateView[];
  readonly overruled: readonly OverruledView[];
  readonly focus: FocusPairView;
  readonly season: SeasonStanding;
}

/** A swing in a player's time line. */
export interface TimelineSwingView {
  readonly id: Id;
  readonly filmedOn: string;
  /** "Off a tee" */
  readonly task: string;
  readonly clips: readonly { readonly id: Id; readonly view: string; readonly posterUrl: string }[];
  /** One per fault: of several coaches the latest call. */
  readonly calls: readonly { readonly name: string; readonly state: Sight }[];
}

export interface PlayerOverviewView {
  readonly focus: FocusPairView;
  /** The first thing to ask that nobody has answered. */
  readonly askFirst: AskFirstView | null;
  readonly swings: readonly TimelineSwingView[];
  readonly next: Id | null;
  /** Per batting side, how many swings there are. */
  readonly swingCounts: readonly { readonly side: Side; readonly count: number }[];
  readonly lastSwingOn: string | null;
}

export interface CageDayRow {
  readonly playerId: Id;
  readonly name: string;
  readonly ageYears: number;
  readonly sport: "baseball" | "softball";
  readonly sides: readonly Side[];
  readonly foci: readonly { readonly side: Side; readonly name: string; readonly cue: string | null }[];
  readonly weeksSinceSwing: number | null;
  readonly isPaused: boolean;
  readonly mayBeFilmed: boolean;
}

type FaultRecord = LibraryParts["faults"]["faults"][number];

/** "25 November" */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** "3 swings, off a tee, 25 November" */
export function swingWords(parts: LibraryParts, swings: readonly SwingRow[]): string | null {
  const [newest] = swings;
  const oldest = swings.at(-1);
  if (!newest || !oldest) return null;
  const days = oldest.filmedOn === newest.filmedOn ? dayWords(newest.filmedOn) : `${dayWords(oldest.filmedOn)} to ${dayWords(newest.filmedOn)}`;
  const task = termOf(parts.terms.lists.task, newest.task).toLowerCase();
  const kind = newest.swingKind === "power" ? "" : `, ${termOf(parts.terms.lists.swingKind, newest.swingKind).toLowerCase()}`;
  return `${swings.length === 1 ? "One swing" : `${swings.length} swings`}, ${task}${kind}, ${days}`;
}

/** What a row of the left side is made from. */
export interface CallContext {
  readonly library: RankingLibrary;
  readonly evidence: SideEvidence;
  readonly actorId: Id;
  readonly swing: SwingRow;
  readonly counts: ReadonlyMap<string, FaultCount>;
  readonly ratios: ReadonlyMap<string, FaultReadings>;
  readonly names: ReadonlyMap<Id, string>;
  /** Events of the swing in hand as frames, the coach's before suggestions. */
  readonly events: readonly { readonly event: string; readonly clipId: Id; readonly frameIndex: number }[];
  /** The section whose folded-away rows are wanted. */
  readonly openSection: string | undefined;
}

/** The academy's own questions with their faults, then the rest: what something is known of first, the others folded away. */
export function callSections(context: CallContext, player: { readonly sport: string; readonly isSlapper: boolean }): CallSectionView[] {
  const { parts, retired } = context.library;
  const order = new Map(parts.phases.phases.map((phase) => [phase.id, phase.order]));
  const faults = faultsFor(parts, retired, player).sort((a, b) => (order.get(a.phase) ?? 0) - (order.get(b.phase) ?? 0) || (a.name < b.name ? -1 : 1));
  const asked = new Set(parts.areas.threeQuestions.flatMap(({ areas }) => areas));
  const section = (id: string, question: string, of: readonly FaultRecord[]): CallSectionView => {
    const rows = of.map((fault) => callRow(context, fault));
    const unlooked = rows.filter((row) => !isLookedAt(row));
    // What nobody looked at and no reading speaks of stands as a name with three answers; the rest comes when it is asked for.
    const others = id === "rest" && context.openSection !== id ? [] : unlooked.map((row) => ({ ...row, still: null }));
    return { id, question, rows: rows.filter(isLookedAt), others, otherCount: unlooked.length };
  };
  return [
    ...parts.areas.threeQuestions.map(({ id, question, areas }) => section(id, question, faults.filter(({ area }) => areas.includes(area)))),
    section("rest", "The rest", faults.filter(({ area }) => !asked.has(area))),
  ];
}

function isLookedAt({ ownCall, otherCalls, settledAs, proposal, readings }: CallRowView): boolean {
  return ownCall !== null || otherCalls.length > 0 || settledAs !== null || proposal !== null || readings.some(({ verdict }) => verdict !== null);
}

function callRow({ library, evidence, actorId, swing, counts, ratios, names, events }: CallContext, fault: FaultRecord): CallRowView {
  const { parts } = library;
  const { seen, judged, notVisible, state } = countOf(counts, fault.id);
  const onSwing = evidence.observations.filter((row) => row.swingId === swing.id && row.faultId === fault.id);
  const weightOf = (id: string) => fault.checkpoints.find(({ checkpoint }) => checkpoint === id)?.weight ?? 0;
  const readings = evidence.readings
    .filter((reading) => reading.swingId === swing.id && weightOf(reading.checkpointId) > 0)
    .sort((a, b) => weightOf(b.checkpointId) - weightOf(a.checkpointId));
  const own = onSwing.find(({ calledById }) => calledById === actorId);
  const pinned = own?.clipId && own.frameIndex !== null ? { clipId: own.clipId, frameIndex: own.frameIndex } : null;
  return {
    faultId: fault.id,
    name: fault.name,
    look: looksOf(fault, swing.clips.map(({ view }) => view)),
    ownCall: (own?.state as Sight | undefined) ?? null,
    otherCalls: onSwing.filter((row) => row !== own).map((row) => ({ by: names.get(row.calledById) ?? "A coach", state: row.state as Sight })),
    count: { seen, judged, notVisible },
    settledAs: state,
    readings: readings.map((reading) => besideView(parts, reading)),
    proposal: proposalOf(ratios.get(fault.id)),
    still: pinned ?? stillOf(readings) ?? eventStill(parts, fault, events),
  };
}

/** What it looks like, from the first view there is a clip of. */
function looksOf(fault: FaultRecord, views: readonly string[]): string {
  const view = (["side", "rear", "front"] as const).find((known) => views.includes(known)) ?? "side";
  return fault.looks[view];
}

function besideView(parts: LibraryParts, { checkpointId, body }: StoredReading): ReadingBesideView {
  const name = parts.checkpoints.checkpoints.find(({ id }) => id === checkpointId)?.name ?? checkpointId;
  const { verdict, size, isGrey } = body;
  return { checkpointId, name, ...readingWords(body), verdict: isGrey ? null : verdict, size };
}

/** The last frame the weightiest reading took points from. */
function stillOf(readings: readonly StoredReading[]): StillView | null {
  for (const { clipId, body } of readings) {
    const frame = body.inputsUsed.frames.at(-1);
    if (frame) return { clipId, frameIndex: frame.frameIndex };
  }
  return null;
}

/** Without a reading: the frame of the event at which the fault's phase ends up. */
function eventStill(parts: LibraryParts, fault: FaultRecord, events: CallContext["events"]): StillView | null {
  const ids = parts.phases.events.filter(({ phase }) => phase === fault.phase).map(({ id }) => id);
  const found = events.find(({ event }) => ids.includes(event));
  return found ? { clipId: found.clipId, frameIndex: found.frameIndex } : null;
}

export function askFirstView(parts: LibraryParts, nodeId: string, answer: AskFirstView["answer"]): AskFirstView | null {
  const node = parts.causes.nodes.find(({ id }) => id === nodeId);
  if (!node || node.kind === "fault") return null;
  const question = parts.questions.questions.find(({ kind, bearsOn }) => kind === "ask" && bearsOn.includes(nodeId));
  return { nodeId, name: node.name, question: question?.words ?? null, howToCheck: node.howToCheck, firstAction: node.firstAction, answer };
}

/** Active and parked of one side, with names and the words that clicked, else the library's first cue. */
export function focusPair(parts: LibraryParts, rows: readonly FocusRow[], clicked: readonly ClickedRow[]): FocusPairView {
  const views = rows.map((row): FocusView => {
    const fault = parts.faults.faults.find(({ id }) => id === row.faultId);
    const own = clicked.find(({ playerId, side, faultId }) => playerId === row.playerId && side === row.side && faultId === row.faultId)?.cue;
    const known = (fault?.cues ?? []).map(({ text }) => text);
    return {
      id: row.id, faultId: row.faultId, name: fault?.name ?? row.faultId, since: row.chosenAt.toISOString().slice(0, 10), isParked: row.state === "parked",
      cue: own ?? known[0] ?? null, hasClicked: own !== undefined, cues: own === undefined || known.includes(own) ? known : [own, ...known],
    };
  });
  return { active: views.filter(({ isParked }) => !isParked), parked: views.filter(({ isParked }) => isParked) };
}
