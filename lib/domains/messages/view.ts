import type { Id } from "@/lib/core/ids";
import { timeOfDay } from "@/lib/core/days";
import type { Part } from "./rules";
import { whenWords } from "./hours/rules";
import type { MessageRow } from "./scope";

/** One message as everybody in the thread reads it. */
export interface MessageView {
  readonly id: Id;
  readonly from: string;
  readonly part: Part;
  readonly isMine: boolean;
  /** Day at the player's location, YYYY-MM-DD, and the time there. */
  readonly day: string;
  readonly time: string;
  readonly words: string;
}

/** The same for coaches: what still waits says when it goes. */
export interface CoachMessageView extends MessageView {
  readonly waits: string | null;
  readonly mayTakeBack: boolean;
}

export interface PersonInThread {
  readonly name: string;
  readonly part: Part;
  readonly isMe: boolean;
}

/** A page of a thread, newest first. */
export interface ThreadView<Message extends MessageView = MessageView> {
  readonly playerId: Id;
  readonly playerName: string;
  readonly givenName: string;
  readonly isMinor: boolean;
  readonly people: readonly PersonInThread[];
  /** Why nothing can be sent now; null when something can. */
  readonly closed: string | null;
  /** "8 AM to 8 PM", and when what a coach writes now goes; null while it goes at once. */
  readonly hours: string;
  readonly goesAt: string | null;
  readonly messages: readonly Message[];
  readonly next: Id | null;
  /** Whether something here was not looked at by the reader yet. */
  readonly hasNew: boolean;
}

export interface CoachThreadView extends ThreadView<CoachMessageView> {
  /** The family wrote last, and nobody said that it needs no answer. */
  readonly isUnanswered: boolean;
}

interface Reading {
  readonly userId: Id;
  readonly part: Part;
  readonly timeZone: string;
}

/** A message as its reader sees it, at the time at which it reached people. */
export function messageView(row: MessageRow, reader: Reading): MessageView {
  const at = row.goneAt ?? row.writtenAt;
  return {
    id: row.id,
    from: row.author.user.displayName,
    part: row.authorPart as Part,
    isMine: row.authorId === reader.userId && row.authorPart === reader.part,
    day: new Intl.DateTimeFormat("en-CA", { timeZone: reader.timeZone }).format(at),
    time: timeOfDay(at, reader.timeZone),
    words: row.words,
  };
}

export function coachMessageView(row: MessageRow, reader: Reading, now: Date): CoachMessageView {
  const view = messageView(row, reader);
  const waits = row.goneAt ? null : row.dueAt > now ? `Goes at ${whenWords(row.dueAt, now, reader.timeZone)}` : "Waits: nobody of the family can get it now";
  return { ...view, waits, mayTakeBack: waits !== null && view.isMine };
}
