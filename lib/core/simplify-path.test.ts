import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { simplifyPath } from "./simplify-path";

const spot = fc.record({ x: fc.integer({ min: 0, max: 1280 }), y: fc.integer({ min: 0, max: 720 }) });

describe("a simplified path", () => {
  test("keeps its ends, and no place left out lies further from it than the tolerance", () => {
    fc.assert(
      fc.property(fc.array(spot, { minLength: 2, maxLength: 60 }), fc.double({ min: 0.5, max: 40, noNaN: true }), (path, tolerance) => {
        const kept = simplifyPath(path, tolerance, 200);
        expect([kept[0], kept.at(-1)]).toEqual([path[0], path.at(-1)]);
        for (const one of path) expect(Math.min(...kept.slice(1).map((to, i) => far(one, kept[i]!, to)))).toBeLessThanOrEqual(tolerance + 1e-6);
      }),
    );
  });
  test("of a straight hand is two places, and of a wild one never more than can be kept", () => {
    expect(simplifyPath(Array.from({ length: 50 }, (_, i) => ({ x: i, y: 2 * i })), 1, 200)).toHaveLength(2);
    const wild = Array.from({ length: 3000 }, (_, i) => ({ x: i % 640, y: (i * 7919) % 720 }));
    expect(simplifyPath(wild, 1, 200).length).toBeLessThanOrEqual(200);
  });
});

function far(p: { x: number; y: number }, a: { x: number; y: number }, b: { x: number; y: number }): number {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const share = length === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length ** 2));
  return Math.hypot(p.x - a.x - share * (b.x - a.x), p.y - a.y - share * (b.y - a.y));
}
