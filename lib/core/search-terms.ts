/** Something that can be found by what people call it. */
export interface SearchEntry {
  readonly id: string;
  /** The plain name and everything else it is called: these count most. */
  readonly names: readonly string[];
  /** Other words about it (cues, what it looks like): found, but after every name. */
  readonly words: readonly string[];
}

/** An entry that was found, the wording that matched, and the rank of the match (higher is nearer). */
export interface SearchMatch {
  readonly id: string;
  readonly matched: string;
  readonly rank: number;
}

/**
 * The words of a text in the form in which they are compared: lower case, no accents, hyphens and punctuation as
 * spaces, apostrophes gone, a plural's s taken off ("hips" = "hip", but not "cross").
 */
export function searchTerms(text: string): string[] {
  return text
    .normalize("NFD")
    .replace(/[\u0300-\u036f'’]/g, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "")
    .map((word) => (word.length > 3 && /[^s]s$/.test(word) ? word.slice(0, -1) : word));
}

/**
 * How near a wording is to what was asked: 5 the same words, 4 the same when spaces are ignored ("roll over" finds
 * "rollover"), 3 the wording begins with them, 2 it holds every word, 1 it holds a word that begins with each, 0 not.
 */
function nearness(asked: readonly string[], wording: readonly string[]): number {
  const [a, b] = [asked.join(" "), wording.join(" ")];
  if (a === b) return 5;
  if (asked.join("") === wording.join("")) return 4;
  if (b.startsWith(`${a} `)) return 3;
  if (asked.every((term) => wording.includes(term))) return 2;
  return asked.every((term) => wording.some((word) => word.startsWith(term))) ? 1 : 0;
}

/**
 * Entries that answer a query, nearest first. A name always stands before other words; among equals the shorter
 * wording, then the order of the entries. An empty query finds nothing. Two entries that share a name and are asked
 * for by it have equal rank and both come first.
 */
export function rankMatches(query: string, entries: readonly SearchEntry[]): SearchMatch[] {
  const asked = searchTerms(query);
  if (asked.length === 0) return [];
  const found: SearchMatch[] = [];
  for (const entry of entries) {
    let best: SearchMatch | null = null;
    const consider = (wording: string, bonus: number) => {
      const near = nearness(asked, searchTerms(wording));
      const rank = near === 0 ? 0 : near + bonus;
      const isBetter = rank > (best?.rank ?? 0) || (rank === best?.rank && wording.length < best.matched.length);
      if (rank > 0 && isBetter) best = { id: entry.id, matched: wording, rank };
    };
    for (const name of entry.names) consider(name, 5);
    for (const words of entry.words) consider(words, 0);
    if (best) found.push(best);
  }
  return found.sort((a, b) => b.rank - a.rank || a.matched.length - b.matched.length);
}
