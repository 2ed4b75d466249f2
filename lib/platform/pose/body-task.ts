import type { FollowedBody } from "./follow-bodies";

/** What the process that finds bodies is started with. */
export interface BodyTask {
  /** Size of the pictures that come on standard input, three bytes a pixel. */
  readonly width: number;
  readonly height: number;
  /** Real seconds of each picture, increasing. */
  readonly seconds: readonly number[];
  /** It ends by itself when it holds more. */
  readonly memoryBytes: number;
}

/** The answer for one picture. */
export interface FrameBodies {
  readonly bodies: readonly FollowedBody[];
  /** How long it took, in milliseconds. */
  readonly ms: number;
}

/** Exit code of a process that grew beyond its memory. */
export const OUT_OF_MEMORY = 70;
