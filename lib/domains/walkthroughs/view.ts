import type { Id } from "@/lib/core/ids";
import type { BattingSide, ClipBeside, ClipView } from "@/lib/domains/clips/view";
import type { TakeList } from "./list/schema";
import type { Cue, Stretch } from "./rules";

/** Who looks: what a model's film may be shown to depends on it. */
export type Looker = "coach" | "family";

/** One clip as a walkthrough may show it today. */
export interface ClipShown {
  /** Null when nothing of it may be shown to this looker today, or it is gone. */
  readonly clip: ClipView | null;
  /** Why not, as a sentence in its place. */
  readonly why: string | null;
  readonly isModel: boolean;
}

export interface TakeView {
  readonly id: Id;
  /** Null when this program cannot read what was kept. */
  readonly list: TakeList | null;
  readonly durationMs: number;
  readonly voiceUrl: string | null;
  readonly voiceMs: number | null;
  readonly cues: readonly Cue[];
}

export interface ChapterView extends Stretch {
  readonly title: string;
  readonly about: { readonly kind: "checkpoint" | "fault" | "drill"; readonly id: string } | null;
  /** For coaches: the swing that was in hand, and what is called there today of the fault it is about. */
  readonly swingId: Id | null;
  readonly sight: "seen" | "not-seen" | "not-visible" | null;
}

/** All that is needed to replay a walkthrough. */
export interface WalkthroughView {
  readonly id: Id;
  readonly playerId: Id;
  readonly givenName: string;
  readonly side: BattingSide;
  readonly title: string;
  readonly summary: string;
  readonly from: string;
  /** YYYY-MM-DD where the academy is. */
  readonly madeOn: string;
  readonly sentOn: string | null;
  readonly noteId: Id | null;
  /** False when no consent to film for lessons is in force: then only the words are there. */
  readonly isPermitted: boolean;
  readonly chapters: readonly ChapterView[];
  readonly takes: readonly TakeView[];
  readonly clips: Readonly<Record<Id, ClipShown>>;
  readonly film: "none" | "asked" | "ready" | "failed" | "out-of-date";
}

/** The same as a page shows it at once. */
export interface WalkthroughOnPage extends WalkthroughView {
  /** The frame with which each clip begins, small, as a data address; none where the clip is not shown or nothing was made yet. */
  readonly opening: Readonly<Record<Id, string>>;
}

/** The same with what only its makers need. */
export interface WalkthroughForCoach extends WalkthroughOnPage {
  /** A paragraph drafted from what was talked about. */
  readonly summaryDraft: string;
  /** The words of its time line as a WebVTT file. */
  readonly captions: string;
  /** Sent notes of this side that it can go with. */
  readonly notes: readonly { readonly id: Id; readonly words: string }[];
}

export interface WalkthroughRow {
  readonly id: Id;
  readonly title: string;
  readonly side: BattingSide;
  readonly summary: string;
  readonly from: string;
  readonly madeOn: string;
  readonly sentOn: string | null;
  readonly noteId: Id | null;
  readonly lengthMs: number;
  readonly chapterTitles: readonly string[];
}

/** A place at which what was asked for is said or shown. */
export interface FoundRow {
  readonly walkthroughId: Id;
  readonly title: string;
  readonly ms: number;
  readonly words: string;
}

/** What can be pointed at while talking, called things first. */
export interface TalkPoints {
  readonly faults: readonly { readonly id: string; readonly name: string; readonly sight: ChapterView["sight"] }[];
  readonly checkpoints: readonly { readonly id: string; readonly name: string }[];
  readonly drills: readonly { readonly id: string; readonly name: string }[];
}

/** Why a clip is not shown in a walkthrough. */
export const notShownWords = {
  gone: "This clip was removed.",
  "no-consent": "No consent to film for lessons is in force, so this film is not shown.",
  "model-for-coaches": "A model swing stood here. Models are shown to coaches only.",
  "model-ended": "A model swing stood here. It may no longer be shown.",
} as const;

/** The clips that may stand in a talk for this player: the player's own and models. @returns them, and how many others were left out */
export function ownClips(clips: readonly ClipBeside[], playerId: Id): { readonly clips: readonly ClipBeside[]; readonly strangers: number } {
  const own = clips.filter(({ clip, isModel }) => clip.playerId === playerId || isModel);
  return { clips: own, strangers: clips.length - own.length };
}

export { sayMinutes } from "./rules";
