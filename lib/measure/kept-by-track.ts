import type { Track } from "@/lib/measure/tracks";

/** More ways of looking at one track than this are forgotten. */
const MOST = 32;

/**
 * Keeps what was worked out from a track, which never changes: while one point is dragged the tracks of all others stay the
 * same. The key must name everything else that the result depends on.
 */
export function keptByTrack<T>(): (track: Track, key: string, make: () => T) => T {
  const kept = new WeakMap<Track, Map<string, T>>();
  return (track, key, make) => {
    const own = kept.get(track) ?? new Map<string, T>();
    kept.set(track, own);
    const known = own.get(key);
    if (known !== undefined) return known;
    if (own.size >= MOST) own.clear();
    const made = make();
    own.set(key, made);
    return made;
  };
}
