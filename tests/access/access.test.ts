import { globSync } from "tinyglobby";
import path from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { ability, type Subject } from "@/lib/access/ability";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { isOperation, type Operation } from "@/lib/access/operation";
import { buildCast, type Cast } from "./cast";
import { mismatchesOf, type AccessRow } from "./row";

const root = path.resolve(import.meta.dirname, "../..");
const layerFiles = globSync(["lib/domains/*/{queries,actions,routes}.ts", "lib/domains/*/*/{queries,actions,routes}.ts"], { cwd: root }).sort();
const tableFiles = globSync("tests/access/tables/*.ts", { cwd: root }).sort();

const operations: Operation[] = [];
const strangers: string[] = [];
for (const file of layerFiles) {
  const exported = (await import(path.join(root, file))) as Record<string, unknown>;
  for (const [name, value] of Object.entries(exported)) {
    if (isOperation(value)) operations.push(value.operation);
    else strangers.push(`${file}: ${name}`);
  }
}
const rows: AccessRow[] = [];
for (const file of tableFiles) rows.push(...((await import(path.join(root, file))) as { rows: AccessRow[] }).rows);

let cast: Cast;
beforeAll(async () => {
  cast = await buildCast();
});

describe("the access table", () => {
  test("every export of queries, actions and routes is made by its define function", () => {
    expect(strangers).toEqual([]);
    expect(operations.length).toBeGreaterThan(10);
  });

  test("every operation has exactly one row, and every row an operation", () => {
    expect(rows.map((row) => row.name).sort()).toEqual(operations.map((operation) => operation.name).sort());
    expect(new Set(rows.map((row) => row.name)).size).toBe(rows.length);
  });

  test.each(operations.map((operation) => [operation.name, operation] as const))("%s lets in those of its row and nobody else", async (name, operation) => {
    const row = rows.find((candidate) => candidate.name === name);
    expect(row, `no row for ${name}`).toBeDefined();
    if (row) expect(await mismatchesOf(operation, row, cast)).toEqual([]);
  });

  test("a policy that is flipped turns the table red", async () => {
    const input = z.object({ playerId: z.string() });
    const load = async () => ({ academyId: cast.academyId });
    const rule = ability<Subject>()("trial.see", (person) => person.role === "head-coach");
    const flipped = ability<Subject>()("trial.see", (person) => person.role !== "head-coach");
    const row: AccessRow = { name: "trial.get", may: ["head"], input: (given) => ({ playerId: given.playerId }) };
    const made = (asked: typeof rule) => defineQuery({ name: "trial.get", input, policy: may(asked, load), run: async () => null }).operation;
    expect(await mismatchesOf(made(rule), row, cast)).toEqual([]);
    expect(await mismatchesOf(made(flipped), row, cast)).toContain("trial.get: head is refused and may");
    expect(await mismatchesOf(made(flipped), row, cast)).toContain("trial.get: admin is let in and may not");
  });
});
