import { Z95 } from "@/lib/measure/several/agreement/measurement-error";
import type { Band } from "@/lib/measure/checkpoint-definition";
import { cameraPartOfDifference } from "@/lib/measure/several/camera-part";
import { meanOf } from "@/lib/measure/mean-and-sd";
import { speaks, type RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { usualSpread } from "@/lib/measure/several/usual-spread";
import { okWidth } from "@/lib/measure/verdict";

/** Fewer swings than this in a set give no spread to compare with. */
export const LEAST_SWINGS = 3;

export type ChangeWord = "changed" | "usual-spread" | "cannot-tell";

/** Whether a checkpoint reads otherwise than before. */
export interface Change {
  readonly word: ChangeWord;
  /** Why it cannot be told, as a clause; null for the other two words. */
  readonly because: string | null;
  /** Mean after less mean before, in the unit; null when it cannot be compared at all. */
  readonly difference: number | null;
  /** SD of the difference, the camera's part included. */
  readonly differenceSd: number | null;
  /** The smallest difference that would have been told from the usual spread. */
  readonly detectable: number | null;
  /** Of a change: toward the band, away from it, or inside it (which is never called better). */
  readonly direction: "toward" | "away" | "inside" | null;
  readonly beforeCount: number;
  readonly afterCount: number;
  /** Both sets of one day: it may be the warm-up. */
  readonly isSameDay: boolean;
  /** The sets come from different set-ups and on some swings nobody knows where the camera stood: its part is left out. */
  readonly isCameraLeftOut: boolean;
}

export interface ChangeOptions {
  /** The band in force; null for a checkpoint that has none. */
  readonly band: Band | null;
  /** Why the sets are not alike, as clauses; any of them and it cannot be told. */
  readonly unlike?: readonly string[];
}

/**
 * Changed, within the usual spread, or cannot tell. The two sets are of one player, side and view, taken alike; readings
 * that do not speak are left out. Without a band, or with one open to a side, twice the usual spread stands for half the
 * band's width. Source: terms `changeRule`.
 */
export function changeBetween(before: readonly RepeatedReading[], after: readonly RepeatedReading[], { band, unlike = [] }: ChangeOptions): Change {
  const [old, now] = [before.filter(speaks), after.filter(speaks)];
  const counts = { beforeCount: old.length, afterCount: now.length, isSameDay: isSameDay(old, now), isCameraLeftOut: isCameraLeftOut([...old, ...now]) };
  const cannot = (because: string): Change => ({ word: "cannot-tell", because, difference: null, differenceSd: null, detectable: null, direction: null, ...counts });
  if (unlike.length > 0) return cannot(unlike.join("; "));
  if (old.length < LEAST_SWINGS) return cannot(`${spoken(old.length)} before, it takes ${LEAST_SWINGS}`);
  if (now.length < LEAST_SWINGS) return cannot(`${spoken(now.length)} now, it takes ${LEAST_SWINGS}`);
  const spread = usualSpread([old, now]);
  if (!spread) return cannot("no spread from swing to swing");
  const [from, to] = [meanOf(old.map(({ value }) => value)), meanOf(now.map(({ value }) => value))];
  const difference = to - from;
  const differenceSd = Math.hypot(spread.sd * Math.sqrt(1 / old.length + 1 / now.length), cameraPartOfDifference(old, now));
  const detectable = Z95 * differenceSd;
  const said = { difference, differenceSd, detectable, ...counts };
  if (Math.abs(difference) > detectable) return { ...said, word: "changed", because: null, direction: band ? directionOf(from, to, band) : null };
  const width = band ? okWidth(band) : Infinity;
  const enough = Number.isFinite(width) ? width / 2 : 2 * spread.sd;
  if (detectable <= enough) return { ...said, word: "usual-spread", because: null, direction: null };
  return { ...said, word: "cannot-tell", because: "the swings differ too much among themselves for a change of this size to show", direction: null };
}

const spoken = (count: number) => (count === 0 ? "no swing that could be compared" : count === 1 ? "only one swing that could be compared" : `only ${count} swings that could be compared`);

function isSameDay(old: readonly RepeatedReading[], now: readonly RepeatedReading[]): boolean {
  const days = (set: readonly RepeatedReading[]) => set.map(({ day }) => day).sort();
  const [last, first] = [days(old).at(-1), days(now)[0]];
  return last !== undefined && first !== undefined && last >= first;
}

function isCameraLeftOut(all: readonly RepeatedReading[]): boolean {
  const isOneSetUp = all.every(({ setUp }) => setUp !== null && setUp === all[0]?.setUp);
  return !isOneSetUp && all.some(({ isCameraKnown }) => !isCameraKnown);
}

function directionOf(from: number, to: number, { ok: [low, high] }: Band): "toward" | "away" | "inside" {
  const outside = (value: number) => Math.max(0, low === null ? 0 : low - value, high === null ? 0 : value - high);
  if (outside(from) === 0 && outside(to) === 0) return "inside";
  return outside(to) < outside(from) ? "toward" : "away";
}
