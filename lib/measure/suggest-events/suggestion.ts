import type { EventId, SwingEvent } from "@/lib/measure/clip-input";

/** What a suggestion has to say beside its time. */
export type SuggestionNote = "starts late" | "no stride" | "no shift back" | "cut off" | "guess" | "computed";

/** A moment that the rules of the phases find. It never takes the place of a coach's mark. */
export interface Suggestion {
  readonly event: EventId;
  /** On the clock of the clip's frame times: real seconds from contact where contact is known. */
  readonly seconds: number;
  readonly sdSeconds: number;
  readonly note: SuggestionNote | null;
  /** What it rests on, as events of a swing say it. */
  readonly source: Exclude<SwingEvent["source"], "placed">;
}

/** The ball's middle on a frame: pixels of the upright picture. */
export interface BallPlace {
  readonly seconds: number;
  readonly x: number;
  readonly y: number;
}

/** What is known beside points and marks; left out = not known. Times on the clock of the clip's frame times. */
export interface SuggestionFacts {
  readonly ball?: readonly BallPlace[];
  /** The loudest onset in the clip's sound. */
  readonly soundOnsetSeconds?: number | null;
  readonly cameraDistanceM?: { readonly value: number; readonly sd: number } | null;
  /** Release: heard or seen by a second camera, or flight from distance and a measured speed with its relative SD. */
  readonly release?: { readonly heardSeconds: number } | { readonly flightSeconds: number; readonly relativeSpeedSd: number } | null;
}

/** One event's rule: a suggestion, or null where it cannot be offered. `event` and its clip's limits are looked after elsewhere. */
export type Found = Omit<Suggestion, "event" | "source"> & { readonly source?: Suggestion["source"] };
