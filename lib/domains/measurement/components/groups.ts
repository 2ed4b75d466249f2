import type { Reading } from "@/lib/measure/reading";

/** The groups in which readings stand, what speaks first. */
export const groupIds = ["talk-about", "watch", "cannot-tell", "fine", "no-verdict", "not-sure", "not-read"] as const;
export type GroupId = (typeof groupIds)[number];

/** Where a reading stands: by its verdict, and by why it has none. */
export function groupOf({ value, isGrey, verdict }: Reading): GroupId {
  if (value === null) return "not-read";
  if (isGrey) return "not-sure";
  return verdict ?? "no-verdict";
}

/** Inside which limits a reading is fine, "fine from 10 to 20"; null without limits. */
export function limitWords(reading: Reading): string | null {
  if (!reading.band) return null;
  const [low, high] = reading.band.ok;
  if (low !== null && high !== null) return `fine from ${plain(low)} to ${plain(high)}`;
  if (high !== null) return `fine up to ${plain(high)}`;
  return low !== null ? `fine from ${plain(low)} on` : null;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(3))).replace("-", "−");
}
