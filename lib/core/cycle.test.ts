import fc from "fast-check";
import { expect, it } from "vitest";
import { findCycle } from "./cycle";

const linksIn = (edges: Record<string, string[]>) => (node: string) => edges[node] ?? [];

it("a ladder has no way round", () => {
  expect(findCycle(["a", "b", "c"], linksIn({ a: ["b", "c"], b: ["c"] }))).toBeNull();
});

it("a way round is named from its first node back to it", () => {
  expect(findCycle(["a", "b", "c"], linksIn({ a: ["b"], b: ["c"], c: ["b"] }))).toEqual(["b", "c", "b"]);
  expect(findCycle(["a"], linksIn({ a: ["a"] }))).toEqual(["a", "a"]);
});

it("links that only climb never make a way round, and one link back makes one", () => {
  const climbing = fc.array(fc.tuple(fc.nat(20), fc.nat(20)), { maxLength: 60 });
  fc.assert(fc.property(climbing, (pairs) => {
    const up = pairs.filter(([a, b]) => a !== b).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);
    const links = (extra?: readonly [number, number]) => (node: string) =>
      [...up, ...(extra ? [extra] : [])].filter(([a]) => String(a) === node).map(([, b]) => String(b));
    const nodes = Array.from({ length: 21 }, (_, i) => String(i));
    expect(findCycle(nodes, links())).toBeNull();
    const first = up[0];
    if (!first) return;
    const found = findCycle(nodes, links([first[1], first[0]]));
    expect(found?.[0]).toBe(found?.[found.length - 1]);
    for (let i = 1; i < (found?.length ?? 0); i++) expect(links([first[1], first[0]])(found![i - 1]!)).toContain(found![i]);
  }));
});
