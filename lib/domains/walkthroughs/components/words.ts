import type { PlainSentence } from "@/lib/core/words/say";

/** Sights in a word, as in "seen on that swing". */
export const sightWords = { seen: "seen on this swing", "not-seen": "not seen on this swing", "not-visible": "not visible on this swing" } as const;

/** How the keys of the replay are told. */
export const replayKeys: readonly (readonly [string, PlainSentence])[] = [
  ["Space", "play or hold"], ["← →", "one frame back or on, with shift ten"], ["↑ ↓", "five seconds on or back"], ["[ ]", "chapter before or after"], ["C", "captions on or off"], ["G", "go on with the talk"],
];
