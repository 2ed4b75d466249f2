/** What a reason does: no reading at all, shown grey without a verdict, or only said beside the reading. */
export type TrustEffect = "null" | "grey" | "note";

/** The closed list of reasons not to trust one reading, with what each does and its words. */
export const TRUST_REASONS = {
  "view-not-declared": { effect: "null", words: "Nobody has said from where it was filmed" },
  "view-not-measured": { effect: "null", words: "This view cannot measure it" },
  "time-unknown": { effect: "null", words: "The real time of the frames is not known" },
  "event-missing": { effect: "null", words: "An event it needs is not marked" },
  "points-missing": { effect: "null", words: "Points it needs are not placed" },
  "window-thin": { effect: "null", words: "Points are missing on more than a fifth of the frames" },
  gap: { effect: "null", words: "A hole of more than three frames" },
  "no-scale": { effect: "null", words: "No length to measure against" },
  rule: { effect: "null", words: "Its own rule says no (the sentence beside it)" },
  "camera-moved": { effect: "null", words: "The camera moved during the clip" },
  slap: { effect: "null", words: "Running slap: power-swing checks are off" },
  "out-of-frame": { effect: "null", words: "Part of the body is outside the picture" },
  "cut-off": { effect: "null", words: "The clip ends too soon" },
  "slow-frames": { effect: "grey", words: "Filmed at too few frames a second" },
  "camera-off-line": { effect: "grey", words: "The camera stood too far off the line" },
  "camera-unknown": { effect: "note", words: "How far the camera stood off the line is not known" },
  "points-unconfirmed": { effect: "grey", words: "Points are suggested, nobody confirmed them" },
  "event-guess": { effect: "grey", words: "An event is a guess" },
  "starts-late": { effect: "note", words: "The clip starts after the stance" },
  "rough-scale": { effect: "note", words: "The body scale is rough" },
  wide: { effect: "grey", words: "The doubt is wider than the band" },
} as const satisfies Record<string, { effect: TrustEffect; words: string }>;

export type TrustReasonId = keyof typeof TRUST_REASONS;

/** One reason at one reading, with the sentence to show. */
export interface TrustReason {
  readonly id: TrustReasonId;
  readonly say: string;
}

/** A reason in its list's words, or in a closer sentence. */
export function reasonOf(id: TrustReasonId, say: string = TRUST_REASONS[id].words): TrustReason {
  return { id, say };
}

/** What a reason does to its reading. */
export function effectOf(id: TrustReasonId): TrustEffect {
  return TRUST_REASONS[id].effect;
}

/** The reasons without repeats of the same sentence, those that remove a reading first, then grey, then notes. */
export function sortReasons(reasons: readonly TrustReason[]): readonly TrustReason[] {
  const rank = { null: 0, grey: 1, note: 2 } as const;
  const seen = new Set<string>();
  return reasons
    .filter(({ id, say }) => !seen.has(`${id} ${say}`) && seen.add(`${id} ${say}`))
    .sort((a, b) => rank[effectOf(a.id)] - rank[effectOf(b.id)]);
}
