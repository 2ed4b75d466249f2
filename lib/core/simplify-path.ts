/** A place in a plane. */
interface Place {
  readonly x: number;
  readonly y: number;
}

/**
 * A hand's path with no more places than it needs: none of those left out lies further from it than the tolerance (Douglas &
 * Peucker 1973); the tolerance grows until few enough are left. The ends stay.
 * @param tolerance in the unit of the places @param most how many places may be left, two or more
 */
export function simplifyPath(path: readonly Place[], tolerance: number, most: number): readonly Place[] {
  let kept = keptWithin(path, tolerance);
  for (let wider = tolerance * 1.5 + 0.5; kept.length > most; wider *= 1.5) kept = keptWithin(path, wider);
  return kept;
}

function keptWithin(path: readonly Place[], tolerance: number): readonly Place[] {
  const keep = new Set([0, path.length - 1]);
  const open: [number, number][] = [[0, path.length - 1]];
  for (let next = open.pop(); next; next = open.pop()) {
    const [first, last] = next;
    let [furthest, most] = [-1, tolerance];
    for (let i = first + 1; i < last; i++) {
      const far = distanceFrom(path[i], path[first], path[last]);
      if (far > most) [furthest, most] = [i, far];
    }
    if (furthest < 0) continue;
    keep.add(furthest);
    open.push([first, furthest], [furthest, last]);
  }
  return path.filter((_, i) => keep.has(i));
}

/** From a place to the stretch between two others. */
function distanceFrom(spot: Place | undefined, a: Place | undefined, b: Place | undefined): number {
  if (!spot || !a || !b) return 0;
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : Math.max(0, Math.min(1, ((spot.x - a.x) * dx + (spot.y - a.y) * dy) / length));
  return Math.hypot(spot.x - a.x - share * dx, spot.y - a.y - share * dy);
}
