"use client";
import { numberWords } from "@/lib/measure/reading-words";
import { eventIds, type EventId, type EventView } from "../view";
import { eventNames, startSentence } from "./words";

/** Where an event probably is, for somebody to say yes to; nothing of it is kept before. */
export interface EventGuess {
  readonly event: EventId;
  readonly frameIndex: number;
  /** Real seconds from contact, null while the clock has no contact. */
  readonly seconds: number | null;
  readonly sdSeconds: number | null;
  /** What it rests on, in words. */
  readonly note: string | null;
}

/** What the sound of a film can suggest. */
const heardNotes: Readonly<Partial<Record<EventId, string>>> = { contact: "heard in the sound", release: "the machine is heard, less the time its sound takes" };

/** The guesses that nobody has answered, in the order of the swing: for events that no coach has set, and contact that was only heard. */
export function openGuesses(guesses: readonly EventGuess[], events: readonly EventView[]): readonly EventGuess[] {
  const heard = events.flatMap((it): EventGuess[] =>
    it.source === "suggested" && !it.elsewhere && it.frameIndex !== null
      ? [{ event: it.event, frameIndex: it.frameIndex, seconds: it.event === "contact" ? 0 : null, sdSeconds: it.sdSeconds, note: heardNotes[it.event] ?? null }]
      : [],
  );
  const others = guesses.filter(({ event }) => !events.some((it) => it.event === event));
  return [...heard, ...others].sort((a, b) => eventIds.indexOf(a.event) - eventIds.indexOf(b.event));
}

/** The guess to ask about: contact before all, since every time is counted from it; else one on the frame shown; else the first. */
export function guessInTurn(open: readonly EventGuess[], frameIndex: number): EventGuess | null {
  return open.find(({ event }) => event === "contact") ?? open.find((it) => it.frameIndex === frameIndex) ?? open[0] ?? null;
}

/** "Toe probably at −0.212 s ± 0.004". */
function guessWords({ event, seconds, sdSeconds }: EventGuess): string {
  if (event === "contact" || seconds === null) return `${eventNames[event]}, suggested`;
  return `${eventNames[event]} probably at ${numberWords(seconds, sdSeconds ?? 0, "seconds")}`;
}

interface EventGuessesProps {
  readonly open: readonly EventGuess[];
  readonly frameIndex: number;
  readonly onGo: (frameIndex: number) => void;
  /** The coach says yes: it becomes the coach's own mark. */
  readonly onTake: (guess: EventGuess) => void;
}

/** One suggested event at a time, with what it rests on: shown on its frame, taken by one tap or key. */
export function EventGuesses({ open, frameIndex, onGo, onTake }: EventGuessesProps) {
  const guess = guessInTurn(open, frameIndex);
  if (!guess) return null;
  const name = eventNames[guess.event].toLowerCase();
  return (
    <div className="bar-line in-hand guess" role="group" aria-label="Suggested event">
      <span className="small">
        {guessWords(guess)}
        {guess.note ? <span className="quiet">{`: ${guess.note}`}</span> : null}
        {open.length > 1 ? <span className="quiet">{` (${open.length - 1} more)`}</span> : null}
      </span>
      <span className="push" />
      {guess.frameIndex === frameIndex ? null : (
        <button type="button" className="btn" onClick={() => onGo(guess.frameIndex)}>{`Show ${name}`}</button>
      )}
      <button type="button" className="btn" aria-keyshortcuts="Y" onClick={() => onTake(guess)}>
        <span className="key" aria-hidden="true">Y</span> {startSentence(`take ${name}`)}
      </button>
    </div>
  );
}
