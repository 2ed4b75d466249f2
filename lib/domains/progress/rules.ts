import type { CameraView } from "@/lib/domains/clips/view";
import { comparableSwings, type ComparableRule, type SwingOnDay } from "@/lib/measure/several/comparable-swings";
import { changeBetween, type Change } from "@/lib/measure/several/change";
import { speaks, type RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { twoSets } from "@/lib/measure/several/two-sets";
import type { Band } from "@/lib/measure/checkpoint-definition";

/** A clip that a family may see stills of. */
export interface ShownClip {
  readonly clipId: string;
  readonly swingId: string;
  readonly view: CameraView;
  /** YYYY-MM-DD */
  readonly day: string;
  /** The frames of plant and contact, where they are set and lie on the clip. */
  readonly frames: Readonly<Partial<Record<PairEvent, number>>>;
}

export const PAIR_EVENTS = ["plant", "contact"] as const;
export type PairEvent = (typeof PAIR_EVENTS)[number];

/** The oldest and the newest of them that were filmed from one view on different days and share an instant; of several views the one whose two lie furthest apart. */
export function oldAndNew<Clip extends ShownClip>(clips: readonly Clip[]): { readonly old: Clip; readonly now: Clip; readonly events: readonly PairEvent[] } | null {
  const pairs = clips.flatMap((old) =>
    clips.flatMap((now) => {
      const events = PAIR_EVENTS.filter((event) => old.frames[event] !== undefined && now.frames[event] !== undefined);
      return old.view === now.view && old.day < now.day && events.length > 0 ? [{ old, now, events }] : [];
    }),
  );
  const daysApart = ({ old, now }: (typeof pairs)[number]) => Date.parse(now.day) - Date.parse(old.day);
  return pairs.sort((a, b) => daysApart(b) - daysApart(a) || b.events.length - a.events.length || a.old.clipId.localeCompare(b.old.clipId) || a.now.clipId.localeCompare(b.now.clipId))[0] ?? null;
}

/** Of swings that were taken in several ways the largest set taken alike, newest first; of two as large the one that reaches nearer to today. */
export function mostAlike<Swing extends SwingOnDay>(newestFirst: readonly Swing[], rule: ComparableRule, most: number): readonly Swing[] {
  const sets = newestFirst.map((swing) => comparableSwings(swing, newestFirst, rule, most).alike);
  return sets.reduce((best, set) => (set.length > best.length ? set : best), []);
}

/** How far the one thing has come, by the library's own rule for a change. */
export interface Trend {
  readonly word: "changed" | "not-yet" | "cannot-tell";
  /** Toward where it is asked to go, away from it, or neither said. */
  readonly direction: Change["direction"];
  /** Why it cannot be told, as a clause with numbers in it; null otherwise. */
  readonly because: string | null;
  readonly unit: string;
  /** The band in force, for ruled paper behind the dots; null where there is none. */
  readonly ok: Band["ok"] | null;
  /** One for each swing that could be read, oldest first. */
  readonly dots: readonly { readonly day: string; readonly value: number; readonly sd: number }[];
}

const WORDS = { changed: "changed", "usual-spread": "not-yet", "cannot-tell": "cannot-tell" } as const;

/** @param newestFirst the readings of one checkpoint and view over swings that were taken alike */
export function trendOf(newestFirst: readonly RepeatedReading[], unit: string, band: Band | null): Trend {
  const { before, after } = twoSets(newestFirst);
  const { word, because, direction } = changeBetween(before, after, { band });
  const dots = newestFirst.filter(speaks).map(({ day, value, sd }) => ({ day, value, sd })).reverse();
  return { word: WORDS[word], because, direction, unit, ok: band?.ok ?? null, dots };
}

/** Where things stand on the plot, in its own units; y grows downwards. */
export interface Plot {
  readonly width: number;
  readonly height: number;
  readonly dots: readonly { readonly x: number; readonly y: number; readonly up: number; readonly down: number; readonly day: string; readonly value: number }[];
  /** The band, cut off at the plot's edges; null without one. */
  readonly band: { readonly top: number; readonly bottom: number } | null;
}

const [WIDTH, HEIGHT, INSET] = [320, 132, 14];
/** Half the length of the line through a dot: about 95 of 100. */
const DOUBT_SDS = 2;

/** Lays the dots out: days from left to right as far apart as they were, swings of one day beside each other; null without a dot. */
export function plotOf({ dots, ok }: Pick<Trend, "dots" | "ok">): Plot | null {
  if (dots.length === 0) return null;
  const reach = dots.flatMap(({ value, sd }) => [value - DOUBT_SDS * sd, value + DOUBT_SDS * sd]);
  const [least, most] = [Math.min(...reach), Math.max(...reach)];
  // An end of the band that lies far away would press the dots together.
  const near = (ok ?? []).flatMap((it) => (it !== null && it > least - (most - least) && it < most + (most - least) ? it : []));
  const [low, high] = [Math.min(least, ...near), Math.max(most, ...near)];
  const room = (high - low || Math.abs(high) || 1) * 0.08;
  const y = (value: number) => INSET + ((high + room - value) / (high - low + 2 * room)) * (HEIGHT - 2 * INSET);
  const times = dots.map(({ day }) => Date.parse(day));
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const beside = dots.map(({ day }, i) => {
    const same = dots.flatMap((it, j) => (it.day === day ? [j] : []));
    return (same.indexOf(i) - (same.length - 1) / 2) * 9;
  });
  const x = (i: number) => (last === first ? WIDTH / 2 : INSET * 2 + (((times[i] ?? first) - first) / (last - first)) * (WIDTH - 4 * INSET)) + (beside[i] ?? 0);
  const edge = (value: number | null, otherwise: number) => (value === null ? otherwise : Math.max(0, Math.min(HEIGHT, y(value))));
  return {
    width: WIDTH, height: HEIGHT,
    dots: dots.map(({ day, value, sd }, i) => ({ x: x(i), y: y(value), up: y(value + DOUBT_SDS * sd), down: y(value - DOUBT_SDS * sd), day, value })),
    band: ok ? { top: edge(ok[1], 0), bottom: edge(ok[0], HEIGHT) } : null,
  };
}
