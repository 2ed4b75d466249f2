import type { Id } from "@/lib/core/ids";
import type { MarkedFrame } from "../view";
import type { SentState } from "./rules";

/** A clip that a family sent, in its list. */
export interface SentRow {
  readonly id: Id;
  readonly state: SentState;
  /** All of it is here and being opened; it is still called on its way. */
  readonly isBeingOpened: boolean;
  /** The day it was sent. */
  readonly day: string;
  readonly words: string;
  /** Why it was not taken; null unless it was refused. */
  readonly refusal: string | null;
  /** The upload whose bytes wait for another try; null when there is nothing to try again. */
  readonly retryUploadId: Id | null;
  /** Null before it is here, and while no consent to film is in force. */
  readonly posterUrl: string | null;
  /** Who answered; null before. */
  readonly answeredBy: string | null;
  /** The walkthrough that is the answer: it opens instead of a frame. */
  readonly walkthroughId: Id | null;
}

/** What a family may send now, and what it sent. */
export interface SendingPage {
  readonly playerId: Id;
  readonly givenName: string;
  readonly sides: readonly ("right" | "left")[];
  /** Why nothing can be sent now, as a sentence; null when something can. */
  readonly whyNot: string | null;
  readonly isPaused: boolean;
  readonly rows: readonly SentRow[];
}

/** An answer to what a family sent, as its first page tells of it. */
export interface FreshAnswer {
  readonly playerId: Id;
  readonly sentId: Id;
  readonly by: string;
}

/** One sent clip as the family opens it. */
export interface SentView extends SentRow {
  readonly playerId: Id;
  /** The film itself; null before it is here and while no consent is in force. */
  readonly filmUrl: string | null;
  readonly answer: string | null;
  readonly answeredOn: string | null;
  readonly still: MarkedFrame | null;
}

/** A clip that waits for a coach's answer. */
export interface WaitingRow {
  readonly id: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly swingId: Id;
  readonly clipId: Id;
  /** "2 days". */
  readonly waited: string;
  readonly isLookedAt: boolean;
  readonly words: string;
}

/** A sent clip as the swing view and the answering page show it. */
export interface SentForCoach {
  readonly id: Id;
  readonly playerId: Id;
  readonly givenName: string;
  readonly swingId: Id;
  readonly clipIds: readonly Id[];
  readonly words: string;
  readonly waited: string;
  readonly answeredBy: string | null;
  readonly answer: string | null;
}
