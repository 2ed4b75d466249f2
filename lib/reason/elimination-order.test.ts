import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { minFillOrder } from "./elimination-order";

/** The largest table that an order makes, by summing out one variable after another. */
function widthOf(order: readonly number[], scopes: readonly (readonly number[])[]): number {
  let tables = scopes.map((scope) => new Set(scope));
  let width = 0;
  for (const variable of order) {
    const joined = new Set(tables.filter((table) => table.has(variable)).flatMap((table) => [...table]));
    width = Math.max(width, joined.size);
    joined.delete(variable);
    tables = [...tables.filter((table) => !table.has(variable)), joined];
  }
  return width;
}

const scopesOf = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 69 }), { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 40 });

describe("the order of elimination", () => {
  it("names every variable of the factors once, and says the width that it really has", () => {
    fc.assert(
      fc.property(scopesOf, (scopes) => {
        const { order, width } = minFillOrder(70, scopes);
        expect([...order].sort((a, b) => a - b)).toEqual([...new Set(scopes.flat())].sort((a, b) => a - b));
        expect(width).toBe(widthOf(order, scopes));
      }),
    );
  });

  it("sums a tree out with two variables in a table and a ring with three, however long", () => {
    const edges = Array.from({ length: 39 }, (_, i) => [i, i + 1]);
    expect(minFillOrder(40, edges).width).toBe(2);
    expect(minFillOrder(40, [...edges, [39, 0]]).width).toBe(3);
  });

  it("does not depend on the order of the factors or of their variables", () => {
    fc.assert(
      fc.property(scopesOf, (scopes) => {
        expect(minFillOrder(70, [...scopes].reverse().map((scope) => [...scope].reverse()))).toEqual(minFillOrder(70, scopes));
      }),
    );
  });
});
