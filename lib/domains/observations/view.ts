import type { Id } from "@/lib/core/ids";
import type { Side } from "@/lib/domains/roster/rules";
import type { Chain } from "@/lib/reason/chain";
import type { LikelihoodWord, Sight } from "@/lib/reason/types";

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
  readonly rows: readonly CallRowView[];
  /** Nothing is known of these yet; they stand folded away. */
  readonly others: readonly CallRowView[];
}

/** A cause that is no homework: asked before anything is chosen. */
export interface AskFirstView {
  readonly nodeId: string;
  readonly name: string;
  readonly howToCheck: string;
  readonly firstAction: string;
  readonly answer: "yes" | "no" | "not-asked";
}

/** One observation and which way it weighs. */
export interface ReasonView {
  readonly words: string;
}

export interface CandidateView {
  readonly faultId: string;
  readonly name: string;
  readonly sentence: string;
  readonly word: LikelihoodWord;
  /** "found here" or "common at this age anyway", from the probability against that of the level. */
  readonly liftWords: string;
  /** In words for coaches who ask: "96 in 100, three times as often as usual at this level". */
  readonly numbers: string;
  readonly against: readonly string[];
  readonly reasons: { readonly raisedBy: readonly ReasonView[]; readonly speaksAgainst: readonly ReasonView[] } | null;
  readonly chain: ChainView;
  readonly isInFocus: boolean;
}

/** The chain to draw, with the names of its columns. */
export interface ChainView extends Pick<Chain, "candidate" | "nodes" | "links" | "text"> {
  readonly columns: readonly string[];
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
  /** The first cue of the library for it; a plan's own cue stands before it. */
  readonly cue: string | null;
}

export interface FocusPairView {
  readonly active: readonly FocusView[];
  readonly parked: readonly FocusView[];
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
  /** Whether anything at all is known: a call, a reading or an answer. */
  readonly isAnythingKnown: boolean;
  readonly standing: "ranked" | "not-enough" | "too-wide";
  readonly askFirst: readonly AskFirstView[];
  readonly answered: readonly AskFirstView[];
  readonly candidates: readonly CandidateView[];
  readonly overruled: readonly OverruledView[];
  readonly focus: FocusPairView;
}

/** A swing in a player's time line. */
export interface TimelineSwingView {
  readonly id: Id;
  readonly filmedOn: string;
  readonly words: string;
  readonly clips: readonly { readonly id: Id; readonly view: string }[];
  readonly seen: readonly string[];
}

export interface PlayerOverviewView {
  readonly focus: FocusPairView;
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

export interface CageDayPage {
  readonly rows: readonly CageDayRow[];
  readonly next: Id | null;
}
