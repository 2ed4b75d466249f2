import type { Verdict } from "@/lib/measure/reading";

/** One checkpoint's reading of one of several swings, as far as comparing goes. */
export interface RepeatedReading {
  readonly swingId: string;
  /** YYYY-MM-DD on which the swing was filmed. */
  readonly day: string;
  /** In the checkpoint's unit; null = unknown. */
  readonly value: number | null;
  /** Without the camera's part; null = unknown, or only "that or more" is known. */
  readonly sd: number | null;
  /** What the camera's angle may add, in the unit: the same for every swing of one set-up. */
  readonly sdCamera: number;
  /** Swings with the same text were filmed from one set-up; null = nobody knows. */
  readonly setUp: string | null;
  /** False when nobody has said how far the camera stood off its line: then `sdCamera` leaves it out. */
  readonly isCameraKnown: boolean;
  readonly verdict: Verdict | null;
  readonly deviation: "low" | "high" | null;
  readonly isGrey: boolean;
}

/** A reading that can be compared as a number. */
export type SpeakingReading = RepeatedReading & { readonly value: number; readonly sd: number };

/** True unless it is unknown, grey, or known only as "that or more". */
export function speaks(reading: RepeatedReading): reading is SpeakingReading {
  const { value, sd, isGrey } = reading;
  return !isGrey && value !== null && Number.isFinite(value) && sd !== null && Number.isFinite(sd);
}
