import type { Id } from "@/lib/core/ids";
import { rankMatches, searchTerms } from "@/lib/core/search-terms";

/** A stretch of a take in its place on the walkthrough's time line. */
export interface Stretch {
  readonly id: Id;
  readonly takeId: Id;
  readonly fromMs: number;
  readonly toMs: number;
}

/** Words said from one instant to another. */
export interface Cue {
  readonly fromMs: number;
  readonly toMs: number;
  readonly text: string;
}

export function lengthMs(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0);
}

/** Where an instant of the walkthrough lies: which stretch, and where in its take. Null when there is none; the ends stand for all beyond. */
export function placeAt<S extends Stretch>(stretches: readonly S[], ms: number): { readonly stretch: S; readonly index: number; readonly beginsMs: number; readonly takeMs: number } | null {
  let beginsMs = 0;
  for (const [index, stretch] of stretches.entries()) {
    const length = stretch.toMs - stretch.fromMs;
    if (ms < beginsMs + length || index === stretches.length - 1) {
      return { stretch, index, beginsMs, takeMs: stretch.fromMs + Math.max(0, Math.min(length, ms - beginsMs)) };
    }
    beginsMs += length;
  }
  return null;
}

/** Where each stretch begins on the walkthrough's time line. */
export function beginnings(stretches: readonly Stretch[]): readonly number[] {
  let at = 0;
  return stretches.map(({ fromMs, toMs }) => {
    const begins = at;
    at += toMs - fromMs;
    return begins;
  });
}

/** The words of the takes on the walkthrough's time line: what was trimmed away is left out, what reaches over an end is cut there. */
export function cuesShown(stretches: readonly Stretch[], cuesOf: Readonly<Record<Id, readonly Cue[]>>): readonly Cue[] {
  const begins = beginnings(stretches);
  return stretches.flatMap(({ takeId, fromMs, toMs }, i) =>
    (cuesOf[takeId] ?? []).flatMap((cue) => {
      const [from, to] = [Math.max(cue.fromMs, fromMs), Math.min(cue.toMs, toMs)];
      const shift = (begins[i] ?? 0) - fromMs;
      return to > from ? [{ fromMs: from + shift, toMs: to + shift, text: cue.text }] : [];
    }),
  );
}

/** Words of the walkthrough's time line back to their takes. What lies in what is trimmed away stays as it was. */
export function cuesOfTakes(stretches: readonly Stretch[], shown: readonly Cue[], before: Readonly<Record<Id, readonly Cue[]>>): Readonly<Record<Id, readonly Cue[]>> {
  const begins = beginnings(stretches);
  const takes = [...new Set(stretches.map(({ takeId }) => takeId))];
  return Object.fromEntries(
    takes.map((takeId) => {
      const own = stretches.flatMap((it, i) => (it.takeId === takeId ? [{ ...it, shift: it.fromMs - (begins[i] ?? 0) }] : []));
      const hidden = (before[takeId] ?? []).flatMap((cue) => own.reduce<readonly Cue[]>((parts, { fromMs, toMs }) => parts.flatMap((part) => without(part, fromMs, toMs)), [cue]));
      const said = own.flatMap(({ fromMs, toMs, shift }) =>
        shown.flatMap((cue) => {
          const [from, to] = [Math.max(cue.fromMs + shift, fromMs), Math.min(cue.toMs + shift, toMs)];
          return to > from ? [{ fromMs: from, toMs: to, text: cue.text }] : [];
        }),
      );
      return [takeId, [...hidden, ...said].sort((a, b) => a.fromMs - b.fromMs)];
    }),
  );
}

/** The parts of a cue outside a stretch. */
function without(cue: Cue, fromMs: number, toMs: number): readonly Cue[] {
  if (cue.toMs <= fromMs || cue.fromMs >= toMs) return [cue];
  const parts = [{ ...cue, toMs: fromMs }, { ...cue, fromMs: toMs }];
  return parts.filter((it) => it.toMs > it.fromMs);
}

/** The words at an instant; null while nothing is said. */
export function cueAt(cues: readonly Cue[], ms: number): Cue | null {
  return cues.find((it) => it.fromMs <= ms && ms < it.toMs) ?? null;
}

/** "1:05". */
export function sayMinutes(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

// ---- What is told of it in words -----------------------------------------------------------------------------------

/** Something of the library that was talked about, and what was called of it. */
export interface TalkedAbout {
  readonly kind: "checkpoint" | "fault" | "drill";
  readonly name: string;
  /** What the coach called it on the swing that was in hand; null where nobody did. */
  readonly sight: "seen" | "not-seen" | "not-visible" | null;
}

/** One paragraph drafted from the observations that were talked about, for the coach to change. What was not called is not claimed. */
export function draftSummary(givenName: string, about: readonly TalkedAbout[]): string {
  const once = about.filter((it, i) => about.findIndex(({ kind, name }) => kind === it.kind && name === it.name) === i);
  const named = (kind: TalkedAbout["kind"], ...sights: TalkedAbout["sight"][]) => listed(once.filter((it) => it.kind === kind && (sights.length === 0 || sights.includes(it.sight))).map(({ name }) => name));
  const [seen, gone, hidden, open] = [named("fault", "seen"), named("fault", "not-seen"), named("fault", "not-visible"), named("fault", null)];
  const sentences = [
    seen && `We look at what shows in ${givenName}’s swing: ${seen}.`,
    gone && `Not there in this swing: ${gone}.`,
    hidden && `From this camera we cannot tell: ${hidden}.`,
    open && `We talk about ${open}.`,
    named("checkpoint") && `We check ${named("checkpoint")}.`,
    named("drill") && `To work on it: ${named("drill")}.`,
  ].filter((it): it is string => Boolean(it));
  return sentences.join(" ");
}

function listed(names: readonly string[]): string {
  const low = names.map((it) => (/^\p{Lu}\p{Ll}/u.test(it) ? it.charAt(0).toLowerCase() + it.slice(1) : it));
  return low.length < 2 ? (low[0] ?? "") : `${low.slice(0, -1).join(", ")} and ${low.at(-1)}`;
}

/** A place in a walkthrough at which what was asked for is said or shown. */
export interface WordsFound {
  readonly walkthroughId: Id;
  readonly ms: number;
  /** The words that answer: a line that was said, or a chapter's title. */
  readonly words: string;
}

export interface Searchable {
  readonly id: Id;
  readonly title: string;
  readonly summary: string;
  readonly cues: readonly Cue[];
  readonly chapters: readonly { readonly beginsMs: number; readonly title: string; readonly aboutId: string | null }[];
}

/**
 * Where something is said or shown. `meant` are the library's records that the query names, each with every name it has: a line that
 * uses another name for the same thing is found too, and so is a chapter about it.
 */
export function findWords(query: string, meant: readonly { readonly id: string; readonly names: readonly string[] }[], walkthroughs: readonly Searchable[]): readonly WordsFound[] {
  if (searchTerms(query).length === 0) return [];
  const wordings = [query, ...meant.flatMap(({ names }) => names)];
  const says = (text: string) => wordings.some((wording) => rankMatches(wording, [{ id: "it", names: [], words: [text] }]).length > 0 || holds(text, wording));
  return walkthroughs.flatMap(({ id, title, summary, cues, chapters }) => [
    ...(says(title) || says(summary) ? [{ walkthroughId: id, ms: 0, words: says(title) ? title : summary }] : []),
    ...chapters.flatMap((it) => (says(it.title) || meant.some((one) => one.id === it.aboutId) ? [{ walkthroughId: id, ms: it.beginsMs, words: it.title }] : [])),
    ...cues.flatMap((cue) => (says(cue.text) ? [{ walkthroughId: id, ms: cue.fromMs, words: cue.text }] : [])),
  ]);
}

/** Whether a text holds all words of a wording, in whatever order. */
function holds(text: string, wording: string): boolean {
  const said = searchTerms(text);
  const asked = searchTerms(wording);
  return asked.length > 0 && asked.every((term) => said.includes(term));
}

const QUARTER_MS = 15 * 60_000;

/** The quarter hour in which a look is noted once. */
export const quarterOf = (at: Date): Date => new Date(Math.floor(at.getTime() / QUARTER_MS) * QUARTER_MS);
