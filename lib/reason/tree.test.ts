import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { chooseCut } from "./cut";
import { findOrder } from "./elimination-order";
import { makeFactor, type Factor } from "./factor";
import type { Change } from "./tables";
import { layOut, runAll, type Asked } from "./tree";

/** Random factors over some variables; a third of them hold a negative number, as split tables do. */
function randomFactors(seed: number, variables: number, many: number, most: number): Factor[] {
  const random = seededRandom(seed);
  return Array.from({ length: many }, () => {
    const scope = [...new Set(Array.from({ length: Math.floor(random.uniform() * (most + 1)) }, () => Math.floor(random.uniform() * variables)))];
    const table = Array.from({ length: 2 ** scope.length }, () => 0.2 + random.uniform());
    if (scope.length > 1 && random.uniform() < 0.3) table[0] = -0.1;
    return makeFactor(scope, table);
  });
}

/** The total, and the total with each variable present, by summing over every state. */
function enumerate(factors: readonly Factor[], variables: number, { tables, weights }: Change): { total: number; present: number[] } {
  let total = 0;
  const present = new Array<number>(variables).fill(0);
  for (let state = 0; state < 2 ** variables; state++) {
    let product = 1;
    factors.forEach((factor, k) => {
      product *= (tables?.get(k) ?? factor.table)[factor.variables.reduce((bits, variable, i) => (state & (1 << variable) ? bits | (1 << i) : bits), 0)]!;
    });
    for (const [variable, pair] of weights ?? []) product *= pair[state & (1 << variable) ? 1 : 0];
    total += product;
    for (let variable = 0; variable < variables; variable++) if (state & (1 << variable)) present[variable]! += product;
  }
  return { total, present };
}

/** Holds what the tree says with each change against summing over every state. */
function check(factors: readonly Factor[], variables: number, tableWidth: number, changes: readonly Change[]): void {
  const used = new Set(factors.flatMap((factor) => factor.variables));
  const tree = layOut(variables, factors, findOrder(variables, factors.map((factor) => factor.variables)), tableWidth);
  const scale = Math.exp(tree.logScale) * 2 ** (variables - used.size);
  const instead = factors.map((factor, k) => ({ factor: k, table: factor.table.map((number) => 1.3 - number) }));
  const asked = changes.map((change): Asked => ({ change, isPresentAsked: true, instead }));
  const size = enumerate(factors.map((factor) => makeFactor(factor.variables, factor.table.map(Math.abs))), variables, {}).total;
  runAll(tree, variables, asked).forEach((found, i) => {
    const change = changes[i] ?? {};
    const truth = enumerate(factors, variables, change);
    expect(Math.abs(found.total * scale - truth.total) / size).toBeLessThan(1e-12);
    for (const variable of used) expect(Math.abs(found.present[variable]! * scale - truth.present[variable]!) / size).toBeLessThan(1e-12);
    instead.forEach(({ factor, table }, k) => {
      const other = enumerate(factors, variables, { ...change, tables: new Map([...(change.tables ?? []), [factor, table]]) }).total;
      expect(Math.abs(found.instead[k]! * scale - other) / size).toBeLessThan(1e-12);
    });
  });
}

describe("an elimination", () => {
  it.each([["at once", 20], ["with some variables held state by state", 2]])("says with any change what summing over every state says: %s", (_, tableWidth) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const factors = randomFactors(seed, 7, 9, 3);
        fc.pre(enumerate(factors, 7, {}).total > 0.01);
        const places = factors.flatMap(({ variables }) => variables).slice(0, 2);
        check(factors, 7, tableWidth, [
          {},
          { weights: new Map(places.map((variable): [number, [number, number]] => [variable, [0, 1]])) },
          { weights: new Map(places.slice(0, 1).map((variable): [number, [number, number]] => [variable, [1, 0.4]])), tables: new Map([[0, factors[0]!.table.map((number) => number * 0.7)]]) },
          { tables: new Map(factors.map(({ table }, k) => [k, table.map((number) => number + 0.1)])) },
        ]);
      }),
      { numRuns: 60 },
    );
  });

  it("does so where tables are walked in many blocks, whatever the inputs share", () => {
    const pairs = Array.from({ length: 13 }, (_, i) => Array.from({ length: i }, (_, j) => [j, i])).flat();
    const random = seededRandom(3);
    const factors = pairs.map((pair) => makeFactor(pair, Array.from({ length: 4 }, () => 0.4 + random.uniform())));
    const truth = enumerate(factors, 13, { weights: new Map([[4, [0, 1]]]) });
    for (const tableWidth of [20, 10]) {
      const laid = layOut(13, factors, findOrder(13, pairs), tableWidth);
      const [found] = runAll(laid, 13, [{ change: { weights: new Map([[4, [0, 1]]]) }, isPresentAsked: true }]);
      expect((found!.total * Math.exp(laid.logScale)) / truth.total).toBeCloseTo(1, 12);
      for (let variable = 0; variable < 13; variable++) expect(found!.present[variable]! / found!.total).toBeCloseTo(truth.present[variable]! / truth.total, 12);
    }
  });
});

describe("the held variables", () => {
  const dense = Array.from({ length: 12 }, (_, i) => [i, (i + 1) % 12, (i + 5) % 12]);

  it("are as few as bring every table within the width, and none where all are", () => {
    const { order, width } = findOrder(12, dense);
    expect(chooseCut(dense, order, width)).toEqual([]);
    const cut = chooseCut(dense, order, width - 2);
    expect(cut.length).toBeGreaterThanOrEqual(2);
    const beside = dense.map((scope) => scope.filter((variable) => !cut.includes(variable)));
    expect(findOrder(12, beside).width).toBeLessThanOrEqual(width - 2);
  });
});
